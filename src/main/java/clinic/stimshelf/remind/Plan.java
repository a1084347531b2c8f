package clinic.stimshelf.remind;

import clinic.stimshelf.loans.Loans;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import jakarta.transaction.Transactional.TxType;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;

/**
 * Keeps the stored reminders equal to what the ladder wants: adds, moves, takes back. What was told
 * stays told; an occasion has one row for ever, so that nothing is told twice.
 */
@ApplicationScoped
class Plan {
  /** A call in place of a message that did not arrive. */
  static final String UNREACHABLE = "unreachable";

  /** A call because somebody wants no more messages. */
  static final String OPTED_OUT = "opted-out";

  private static final int CHUNK = 200;
  private static final int MEMORY_DAYS = 500;

  @Inject Reminders rows;
  @Inject Derivation derivation;
  @Inject Patients patients;
  @Inject Loans loans;
  @Inject EntityManager em;
  @Inject Clock clock;

  /** Brings everything of these patients up to date, in the transaction of what changed. */
  @Transactional(TxType.MANDATORY)
  void sync(Collection<Long> patientIds) {
    List<Long> all = new ArrayList<>(new TreeSet<>(patientIds));
    for (int from = 0; from < all.size(); from += CHUNK) {
      chunk(all.subList(from, Math.min(from + CHUNK, all.size())));
    }
  }

  private void chunk(List<Long> ids) {
    em.flush();
    // Of two who change the same patient, the later one sees what the earlier one did.
    em.createNativeQuery("select id from patient where id in (:ids) order by id for update")
        .setParameter("ids", ids)
        .getResultList();
    Map<Long, PatientView> people = patients.byIds(ids);
    Map<String, Wanted> wanted = new HashMap<>();
    derivation.of(people.values()).forEach(one -> wanted.put(one.occasion(), one));
    Instant now = clock.instant();
    Map<Long, LocalDate> today = new HashMap<>();
    for (Reminder row :
        rows.list(
            "patientId in ?1 and dueAt > ?2",
            ids,
            now.minus(java.time.Duration.ofDays(MEMORY_DAYS)))) {
      Wanted want = wanted.remove(row.occasion);
      if (want != null) {
        follow(row, want, now, today);
      } else if (row.state == ReminderState.WAITING && !stands(row, people)) {
        row.ends(ReminderState.CANCELLED, now, "Stimshelf", "no longer called for");
      }
    }
    for (Wanted want : wanted.values()) {
      if (!want.route().sent() || !want.onDay().isBefore(today(want.locationId(), today))) {
        rows.persist(row(want));
      }
    }
  }

  private LocalDate today(Long locationId, Map<Long, LocalDate> known) {
    return known.computeIfAbsent(locationId, id -> derivation.place(id).today());
  }

  private void follow(Reminder row, Wanted want, Instant now, Map<Long, LocalDate> today) {
    if (row.state == ReminderState.CANCELLED) {
      if (want.route().sent() && want.onDay().isBefore(today(want.locationId(), today))) {
        return;
      }
      row.state = ReminderState.WAITING;
      row.endedAt = null;
      row.endedBy = null;
      row.why = null;
      row.messageId = null;
      row.tries = 0;
    }
    if (row.state != ReminderState.WAITING || (row.tries > 0 && !want.onDay().isAfter(row.onDay))) {
      return;
    }
    row.route = want.route();
    row.onDay = want.onDay();
    row.dueAt = want.dueAt();
    row.usefulUntil = want.usefulUntil();
    row.words = want.words();
    if (want.dueAt().isAfter(now)) {
      row.messageId = null;
    }
  }

  /** What is not of the ladder stands as long as the patient lives and their loan is open. */
  private boolean stands(Reminder row, Map<Long, PatientView> people) {
    PatientView patient = people.get(row.patientId);
    boolean extra = row.kind.equals(UNREACHABLE) || row.kind.equals(OPTED_OUT);
    return extra
        && patient != null
        && patient.diedOn() == null
        && (row.loanId == null || loans.byId(row.loanId).state().open());
  }

  private static Reminder row(Wanted want) {
    Reminder row = new Reminder();
    row.patientId = want.patientId();
    row.locationId = want.locationId();
    row.loanId = want.loanId();
    row.appointmentId = want.appointmentId();
    row.occasion = want.occasion();
    row.kind = want.kind();
    row.step = want.step();
    row.route = want.route();
    row.state = ReminderState.WAITING;
    row.aboutOn = want.aboutOn();
    row.onDay = want.onDay();
    row.dueAt = want.dueAt();
    row.usefulUntil = want.usefulUntil();
    row.words = want.words();
    return row;
  }

  /** Puts a call on the list, today. The same occasion is put there once. */
  void call(
      Long patientId,
      Long locationId,
      @Nullable Long loanId,
      String subject,
      String kind,
      String words,
      String why) {
    LocalDate day = derivation.place(locationId).today();
    String occasion = String.join("/", subject, kind, LadderFile.CALL, day.toString());
    if (rows.count("occasion", occasion) > 0) {
      return;
    }
    Reminder row = new Reminder();
    row.patientId = patientId;
    row.locationId = locationId;
    row.loanId = loanId;
    row.occasion = occasion;
    row.kind = kind;
    row.step = LadderFile.CALL;
    row.route = Route.CALL;
    row.state = ReminderState.WAITING;
    row.aboutOn = day;
    row.onDay = day;
    row.dueAt = clock.instant();
    row.words = Message.cut(words);
    row.why = Message.cut(why);
    rows.persist(row);
  }
}
