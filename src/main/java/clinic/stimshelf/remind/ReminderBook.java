package clinic.stimshelf.remind;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Reminders as they stand: what left, what is to come, what people have to see to. */
@ApplicationScoped
public class ReminderBook {
  private static final int VOICEMAILS = 3;

  @Inject Reminders rows;
  @Inject Messages messages;
  @Inject Outbox outbox;
  @Inject Derivation derivation;
  @Inject Patients patients;
  @Inject Ways ways;
  @Inject Plan plan;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /** What came of trying to reach somebody. */
  public enum Reached {
    YES,
    NOT_YET,
    WRONG_NUMBER
  }

  /**
   * Reminders at the locations: those still to come by time, those that ended latest first.
   *
   * @param state {@code null} for all
   */
  @Transactional
  public Page<ReminderView> list(
      Collection<Long> locationIds, ReminderView.State state, Long patientId, Paging paging) {
    Map<String, Object> values = new HashMap<>();
    StringBuilder where = new StringBuilder("locationId in :at");
    values.put("at", locationIds);
    if (patientId != null) {
      where.append(" and patientId = :patient");
      values.put("patient", patientId);
    }
    boolean ahead = false;
    if (state != null) {
      switch (state) {
        case PLANNED, DUE -> {
          ahead = true;
          where.append(
              state == ReminderView.State.DUE
                  ? " and state = :state and dueAt <= :now"
                  : " and state = :state and dueAt > :now");
          values.put("now", clock.instant());
          values.put("state", ReminderState.WAITING);
        }
        default -> {
          where.append(" and state = :state");
          values.put("state", ReminderState.valueOf(state.name()));
        }
      }
    }
    Instant now = clock.instant();
    List<ReminderView> items =
        rows
            .find(where + (ahead ? " order by dueAt, id" : " order by dueAt desc, id desc"), values)
            .page(paging.page(), paging.size())
            .stream()
            .map(row -> ReminderView.of(row, now))
            .toList();
    return new Page<>(items, paging.page(), paging.size(), rows.count(where.toString(), values));
  }

  /** Calls, letters and tasks that are due at a location, oldest first, at most so many. */
  @Transactional
  public List<ReminderView> forPeople(Long locationId, int most) {
    Instant now = clock.instant();
    return rows
        .find(
            "locationId = ?1 and state = ?2 and route in ?3 and dueAt <= ?4 order by dueAt, id",
            locationId,
            ReminderState.WAITING,
            List.of(Route.CALL, Route.LETTER, Route.TASK),
            now)
        .page(0, most)
        .stream()
        .map(row -> ReminderView.of(row, now))
        .toList();
  }

  /** How many of those there are. */
  @Transactional
  public long countForPeople(Long locationId) {
    // One call settles everything that a patient is called about, so it counts as one.
    return rows.find(
                "select count(distinct patientId) from Reminder where locationId = ?1 and state = ?2"
                    + " and route = ?3 and dueAt <= ?4",
                locationId,
                ReminderState.WAITING,
                Route.CALL,
                clock.instant())
            .project(Long.class)
            .firstResult()
        + rows.count(
            "locationId = ?1 and state = ?2 and route in ?3 and dueAt <= ?4",
            locationId,
            ReminderState.WAITING,
            List.of(Route.LETTER, Route.TASK),
            clock.instant());
  }

  /**
   * @throws NotFound if there is none at the person's locations
   */
  @Transactional
  public ReminderView byId(Long id) {
    return ReminderView.of(row(id), clock.instant());
  }

  /**
   * Somebody saw to it.
   *
   * @throws Refusal if there is nothing to see to
   */
  @Transactional
  public ReminderView done(Long id, String words) {
    Reminder row = row(id);
    if (row.state != ReminderState.WAITING) {
      throw new Refusal(null, "This reminder is over already.", "Look at the list again.");
    }
    if (words != null && words.length() > 300) {
      throw new Refusal("note", "At most 300 characters.");
    }
    row.ends(ReminderState.DONE, clock.instant(), signedIn.name(), words);
    Message message = row.messageId == null ? null : messages.findById(row.messageId);
    if (message != null
        && message.state == MessageState.UNSENT
        && rows.count("messageId = ?1 and state = ?2", message.id, ReminderState.WAITING) == 0) {
      message.cancelled();
      message.standingOn = message.onDay;
    }
    tell(row, "reminder done", words);
    return ReminderView.of(row, clock.instant());
  }

  /** Somebody was called about a loan or for another reason: what was due about it is settled. */
  @Transactional
  public void called(Long patientId, Long loanId, Reached reached) {
    for (Reminder row :
        rows.list(
            "patientId = ?1 and state = ?2 and route = ?3 and dueAt <= ?4",
            patientId,
            ReminderState.WAITING,
            Route.CALL,
            clock.instant())) {
      if (loanId != null && row.loanId != null && !row.loanId.equals(loanId)) {
        continue;
      }
      switch (reached) {
        case YES -> row.ends(ReminderState.DONE, clock.instant(), signedIn.name(), null);
        case NOT_YET -> again(row);
        case WRONG_NUMBER -> write(row, "The number is somebody else's.");
        default -> throw new IllegalStateException("" + reached);
      }
    }
    if (reached == Reached.WRONG_NUMBER) {
      PatientView patient = patients.byIds(List.of(patientId)).get(patientId);
      String number = Ways.address(patient, Route.TEXT);
      if (number != null) {
        ways.stop(patientId, Route.TEXT, number, StopReason.WRONG, "told on the telephone");
        plan.sync(List.of(patientId));
      }
    }
  }

  private void again(Reminder row) {
    if (row.tries + 1 >= VOICEMAILS && !row.kind.equals(Plan.OPTED_OUT)) {
      write(row, "Nobody answered " + VOICEMAILS + " calls.");
      return;
    }
    Derivation.Place place = derivation.place(row.locationId);
    LocalDate next = place.open().firstOpenAfter(place.today());
    row.putOff(next, next.atStartOfDay(place.zone()).toInstant());
  }

  private void write(Reminder row, String why) {
    row.route = Route.LETTER;
    row.why = why;
    row.tries++;
  }

  /** A mail came back after it had been taken: its address is written to no more. */
  @Transactional
  public void bounced(Long id, String words) {
    Reminder row = row(id);
    Message message = row.messageId == null ? null : messages.findById(row.messageId);
    if (message == null || message.state != MessageState.SENT) {
      throw new Refusal(null, "No message of this reminder was sent.");
    }
    bounced(message, words);
  }

  void bounced(Message message, String words) {
    ways.stop(message.patientId, message.route, message.sentTo, StopReason.BOUNCED, words);
    List<Reminder> items =
        rows.list("messageId = ?1 and state = ?2", message.id, ReminderState.SENT);
    outbox.failed(message, items, "It came back" + (words == null ? "." : ": " + words));
    plan.sync(List.of(message.patientId));
  }

  /** The patient wants no more by this route: what is to come goes to the call list, at once. */
  @Transactional
  public void optOut(Long patientId, Route route, String address) {
    ways.stop(patientId, route, address, StopReason.OPTED_OUT, null);
    PatientView patient = patients.byIds(List.of(patientId)).get(patientId);
    plan.call(
        patientId,
        patient.locationId(),
        null,
        "patient:" + patientId,
        Plan.OPTED_OUT,
        "Ask how the clinic may reach them from now on",
        "They want no more by " + route.words() + ".");
    plan.sync(List.of(patientId));
    trail.record(
        Subject.of("patient", patientId),
        patient.locationId(),
        "wants no more messages",
        times.now(),
        null,
        Map.of("by", route.words()));
  }

  private Reminder row(Long id) {
    Reminder row = id == null ? null : rows.findById(id);
    if (row == null || !signedIn.mayActAt(row.locationId)) {
      throw new NotFound("There is no such reminder at your locations.");
    }
    return row;
  }

  private void tell(Reminder row, String what, String words) {
    Map<String, Object> after = new HashMap<>();
    after.put("about", row.kind);
    after.put("by", row.route.words());
    after.put("note", words);
    trail.record(
        row.loanId == null ? Subject.of("patient", row.patientId) : Subject.of("loan", row.loanId),
        row.locationId,
        what,
        times.now(),
        null,
        after);
  }
}
