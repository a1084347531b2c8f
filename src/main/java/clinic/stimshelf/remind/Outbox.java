package clinic.stimshelf.remind;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import jakarta.transaction.Transactional;
import jakarta.transaction.Transactional.TxType;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Messages from the moment they are due until they left. What is sent was stored and claimed
 * before, in a transaction of its own; what was sent is marked after, in another. Only between the
 * two can a message go out twice, and then under the same Message-ID.
 */
@ApplicationScoped
class Outbox {
  /** Longer than sending may take: only after it does another node take the message over. */
  private static final int LEASE_IN_PATIENCES = 4;

  @Inject Messages messages;
  @Inject Reminders reminders;
  @Inject Plan plan;
  @Inject Derivation derivation;
  @Inject Ways ways;
  @Inject Senders senders;
  @Inject Composer composer;
  @Inject Tokens tokens;
  @Inject PatientLinks links;
  @Inject Patients patients;
  @Inject MessageConfig config;
  @Inject EntityManager em;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;

  /** What was taken up: a parcel to send, or nothing but a message that was settled otherwise. */
  record Claim(@Nullable Parcel parcel) {}

  /** Patients for whom something is due that no message carries yet. */
  @Transactional(TxType.REQUIRES_NEW)
  List<Long> waiting(int most) {
    return em.createQuery(
            "select r.patientId from Reminder r where r.state = :waiting and r.route in :sent and"
                + " r.messageId is null and r.dueAt <= :now group by r.patientId order by"
                + " min(r.dueAt), r.patientId",
            Long.class)
        .setParameter("waiting", ReminderState.WAITING)
        .setParameter("sent", List.of(Route.EMAIL, Route.TEXT))
        .setParameter("now", clock.instant())
        .setMaxResults(most)
        .getResultList();
  }

  /** Puts what is due for a patient into the one message of the day. */
  @Transactional(TxType.REQUIRES_NEW)
  void gather(Long patientId) {
    Instant now = clock.instant();
    em.createNativeQuery("select id from patient where id = :id for update")
        .setParameter("id", patientId)
        .getSingleResult();
    List<Reminder> due =
        reminders.list(
            "patientId = ?1 and state = ?2 and route in ?3 and messageId is null and dueAt <= ?4"
                + " order by dueAt, id",
            patientId,
            ReminderState.WAITING,
            List.of(Route.EMAIL, Route.TEXT),
            now);
    if (due.isEmpty()) {
      return;
    }
    Derivation.Place place = derivation.place(due.get(0).locationId);
    Message open =
        messages
            .find(
                "patientId = ?1 and state in ?2 order by id",
                patientId,
                List.of(MessageState.WAITING, MessageState.CLAIMED))
            .firstResult();
    if (open != null && open.tries == 0) {
      due.forEach(one -> one.messageId = open.id);
    } else if (open != null
        || messages.count("patientId = ?1 and standingOn = ?2", patientId, place.today()) > 0) {
      // One message a day is enough: the rest waits for tomorrow.
      LocalDate tomorrow = place.today().plusDays(1);
      due.forEach(one -> one.putOff(tomorrow, place.moment(tomorrow, true)));
    } else {
      Message fresh = new Message();
      fresh.patientId = patientId;
      fresh.locationId = place.id();
      fresh.route = due.get(0).route;
      fresh.state = MessageState.WAITING;
      fresh.on(place.today());
      fresh.nextAt = place.allowed(now);
      fresh.mailId = UUID.randomUUID().toString();
      messages.persist(fresh);
      due.forEach(one -> one.messageId = fresh.id);
    }
  }

  /**
   * Takes up the message that waits longest and that no other node holds.
   *
   * @return empty if there is none
   */
  @Transactional(TxType.REQUIRES_NEW)
  Optional<Claim> claim() {
    Instant now = clock.instant();
    List<?> found =
        em.createNativeQuery(
                "select id from message where (state = 'WAITING' and next_at <= :now) or (state ="
                    + " 'CLAIMED' and claimed_until < :now) order by next_at, id fetch first 1 rows"
                    + " only for update skip locked",
                Long.class)
            .setParameter("now", now)
            .getResultList();
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Message message = messages.findById((Long) found.get(0));
    plan.sync(List.of(message.patientId));
    return Optional.of(new Claim(prepared(message, now)));
  }

  private @Nullable Parcel prepared(Message message, Instant now) {
    List<Reminder> items =
        reminders.list(
            "messageId = ?1 and state = ?2 order by dueAt, id", message.id, ReminderState.WAITING);
    if (message.state == MessageState.CLAIMED && message.route == Route.TEXT) {
      failed(message, items, "It is unknown whether the gateway sent it.");
      return null;
    }
    List<Reminder> stale =
        items.stream()
            .filter(one -> one.usefulUntil != null && one.usefulUntil.isBefore(now))
            .toList();
    if (!stale.isEmpty()) {
      fail(message, stale, "It could not be sent in time.");
    }
    List<Reminder> left = items.stream().filter(one -> !stale.contains(one)).toList();
    left.stream().filter(one -> !one.route.sent()).forEach(one -> one.messageId = null);
    left = left.stream().filter(one -> one.route.sent()).toList();
    if (left.isEmpty()) {
      message.cancelled();
      return null;
    }
    Derivation.Place place = derivation.place(message.locationId);
    Instant allowed = place.allowed(now);
    if (allowed.isAfter(now)) {
      message.again(allowed, message.trouble);
      return null;
    }
    message.route = left.get(0).route;
    message.on(place.today());
    if (!senders.with(message.route)) {
      message.unsent();
      return null;
    }
    PatientView patient = patients.byIds(List.of(message.patientId)).get(message.patientId);
    String to = Ways.address(patient, message.route);
    message.claimed(
        now.plus(config.patience().multipliedBy(LEASE_IN_PATIENCES)).plus(Duration.ofSeconds(30)));
    return new Parcel(
        message.id,
        message.tries,
        message.route,
        to,
        message.mailId,
        composer.compose(
            patient,
            message.locationId,
            message.route,
            left.stream().map(Composer.Item::of).toList(),
            link(left),
            message.route == Route.EMAIL ? wayOut(message, to) : null));
  }

  private @Nullable String link(List<Reminder> items) {
    return items.stream()
        .map(one -> one.loanId)
        .filter(java.util.Objects::nonNull)
        .findFirst()
        .flatMap(links::address)
        .orElse(null);
  }

  private @Nullable String wayOut(Message message, String to) {
    return links
        .base()
        .map(base -> base + "/p/stop/" + tokens.stop(message.patientId, message.route, to))
        .orElse(null);
  }

  /** Notes what became of a parcel, unless another took the message over meanwhile. */
  @Transactional(TxType.REQUIRES_NEW)
  void mark(Parcel parcel, Answer answer) {
    Message message = em.find(Message.class, parcel.messageId(), LockModeType.PESSIMISTIC_WRITE);
    if (message.state != MessageState.CLAIMED || message.tries != parcel.tries()) {
      return;
    }
    Instant now = clock.instant();
    List<Reminder> items =
        reminders.list("messageId = ?1 and state = ?2", message.id, ReminderState.WAITING);
    switch (answer.how()) {
      case TAKEN -> {
        message.sent(parcel.to(), now);
        items.forEach(one -> one.ends(ReminderState.SENT, now, "Stimshelf", null));
        tell(message, items, "message sent");
      }
      case REFUSED -> {
        ways.stop(
            message.patientId, message.route, parcel.to(), StopReason.REFUSED, answer.words());
        failed(message, items, "The address was refused: " + answer.words());
        plan.sync(List.of(message.patientId));
      }
      case LATER -> message.again(now.plus(message.pause()), answer.words());
      case UNKNOWN -> failed(message, items, answer.words());
      default -> throw new IllegalStateException("" + answer.how());
    }
  }

  /** Ends a message that nobody can get, and puts a call in its place. */
  void failed(Message message, List<Reminder> items, String why) {
    message.failed(why);
    fail(message, items, why);
    tell(message, items, "message not delivered");
  }

  private void fail(Message message, List<Reminder> items, String why) {
    items.forEach(one -> one.ends(ReminderState.FAILED, clock.instant(), "Stimshelf", why));
    Long loan =
        items.stream()
            .map(one -> one.loanId)
            .filter(java.util.Objects::nonNull)
            .findFirst()
            .orElse(null);
    plan.call(
        message.patientId,
        message.locationId,
        loan,
        "message:" + message.id,
        Plan.UNREACHABLE,
        items.stream().map(one -> one.words).distinct().collect(Collectors.joining("; ")),
        why);
  }

  private void tell(Message message, List<Reminder> items, String what) {
    trail.record(
        Subject.of("patient", message.patientId),
        message.locationId,
        what,
        times.now(),
        null,
        Map.of(
            "by", message.route.words(),
            "about", items.stream().map(one -> one.kind).sorted().toList()));
  }

  /** When the oldest message that should have left was due, if one waits. */
  @Transactional(TxType.REQUIRES_NEW)
  Optional<Instant> oldest() {
    Instant now = clock.instant();
    return Stream.concat(
            em.createQuery(
                    "select min(r.dueAt) from Reminder r where r.state = :waiting and r.route in"
                        + " :sent and r.messageId is null and r.dueAt <= :now",
                    Instant.class)
                .setParameter("waiting", ReminderState.WAITING)
                .setParameter("sent", List.of(Route.EMAIL, Route.TEXT))
                .setParameter("now", now)
                .getResultStream(),
            em.createQuery(
                    "select min(r.dueAt) from Reminder r, Message m where r.messageId = m.id and"
                        + " r.state = :waiting and m.state in :open",
                    Instant.class)
                .setParameter("waiting", ReminderState.WAITING)
                .setParameter("open", List.of(MessageState.WAITING, MessageState.CLAIMED))
                .getResultStream())
        .filter(java.util.Objects::nonNull)
        .min(Comparator.naturalOrder());
  }
}
