package clinic.stimshelf.remind;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.people.NewPatient;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.people.ReachBy;
import clinic.stimshelf.testing.Crew;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;

/** Patients with a unit at home who want to be written to. */
@ApplicationScoped
class RemindScene {
  @Inject LendingScene lending;
  @Inject Patients patients;
  @Inject Crew crew;
  @Inject Reminders reminders;
  @Inject Messages messages;
  @Inject EntityManager em;

  /** A loan with its patient. */
  record Lent(LendingScene.Scene scene, Long loanId, Long patientId, String email) {}

  /** Lent on Tuesday, March 3 at nine; due on the day the program says. */
  Lent lent() {
    LendingScene.Scene scene = lending.open();
    return lent(scene);
  }

  Lent lent(LendingScene.Scene scene) {
    String program = lending.signed(scene);
    String unit = lending.unit(scene);
    Long patient =
        Long.valueOf(
            LendingScene.get(scene.pt(), "/api/programs/" + program)
                .extract()
                .<String>path("patientId"));
    String email = Crew.unique("patient") + "@example.net";
    change(scene, patient, ReachBy.EMAIL, "Ada Lindqvist", "en", email, null);
    return new Lent(scene, Long.valueOf(lending.lent(scene, program, unit)), patient, email);
  }

  /** A telephone that nobody else of the tests has: to stop it must not stop theirs. */
  static String phone(Long patientId) {
    return "(555) 02%d-%04d".formatted(patientId / 10_000 % 10, patientId % 10_000);
  }

  void change(
      LendingScene.Scene scene,
      Long patientId,
      ReachBy by,
      String name,
      String language,
      String email,
      LocalDate diedOn) {
    PatientView now = view(patientId);
    crew.as(
        scene.desk().id(),
        () ->
            patients.change(
                patientId,
                null,
                new NewPatient(
                    null,
                    scene.location(),
                    now.chartNumber(),
                    name,
                    now.birthDate(),
                    null,
                    null,
                    language,
                    false,
                    by,
                    phone(patientId),
                    email,
                    null,
                    true,
                    diedOn)));
  }

  @ActivateRequestContext
  @Transactional
  PatientView view(Long patientId) {
    return patients.byIds(List.of(patientId)).get(patientId);
  }

  @ActivateRequestContext
  @Transactional
  List<Reminder> of(Long patientId) {
    return reminders.list("patientId = ?1 order by dueAt, id", patientId);
  }

  @ActivateRequestContext
  @Transactional
  List<Reminder> waiting(Long patientId) {
    return reminders.list(
        "patientId = ?1 and state = ?2 order by dueAt, id", patientId, ReminderState.WAITING);
  }

  @ActivateRequestContext
  @Transactional
  List<Message> messages(Long patientId) {
    return messages.list("patientId = ?1 order by id", patientId);
  }

  /** Puts aside what earlier tests left due, so that a round is about this test's own. */
  @ActivateRequestContext
  @Transactional
  void onlyOf(Long... locations) {
    em.createNativeQuery(
            "delete from failed_sign_in where subject like 'link%' or subject like 'gateway%'")
        .executeUpdate();
    reminders.update(
        "state = ?1 where state = ?2 and locationId not in ?3",
        ReminderState.CANCELLED,
        ReminderState.WAITING,
        List.of(locations));
    messages.update(
        "state = ?1, standingOn = null where state in ?2 and locationId not in ?3",
        MessageState.CANCELLED,
        List.of(MessageState.WAITING, MessageState.CLAIMED),
        List.of(locations));
  }

  /** The day on which the first message of the kind leaves, at a given time of day. */
  void atDayOf(Lent lent, String kind, String time) {
    LocalDate day =
        of(lent.patientId()).stream()
            .filter(one -> one.kind.equals(kind))
            .findFirst()
            .orElseThrow()
            .onDay;
    lending.at(day, time);
  }

  Instant instant(LocalDate day, String time) {
    return day.atTime(LocalTime.parse(time)).atZone(LendingScene.ZONE).toInstant();
  }
}
