package clinic.stimshelf.remind;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** The messages of a location as its people see them. */
@ApplicationScoped
class MessageBoard {
  private static final int AHEAD_DAYS = 14;
  private static final int BACK_DAYS = 7;
  private static final int MOST = 100;

  /**
   * Where the patient's link would stand: a page of ours does not hold a link that opens theirs.
   */
  private static final String LINK = "[the link to the patient’s page]";

  @Inject Messages messages;
  @Inject Reminders reminders;
  @Inject ReminderBook book;
  @Inject Composer composer;
  @Inject PatientLinks links;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  /** A message with what it says. */
  record Line(
      Long id,
      LocalDate day,
      String name,
      String chartNumber,
      String by,
      List<String> about,
      List<String> lines,
      Instant at,
      int tries,
      String trouble) {}

  /** Something still to come. */
  record Ahead(LocalDate day, String name, String chartNumber, String by, String about) {}

  /** The page. Each list has at most 100 lines; the newest or the next ones. */
  record View(
      List<Line> unsent,
      List<Line> waiting,
      List<Line> failed,
      List<Line> sent,
      List<Ahead> ahead) {}

  /** A letter on the clinic's paper. */
  record Letter(
      LocationView from,
      String lang,
      String day,
      String name,
      List<String> address,
      List<String> lines) {}

  @Transactional
  View at(Long locationId) {
    Instant now = clock.instant();
    LocalDate since = locations.today(locationId).minusDays(BACK_DAYS);
    List<Message> found = new ArrayList<>();
    for (List<MessageState> states :
        List.of(
            List.of(MessageState.UNSENT),
            List.of(MessageState.WAITING, MessageState.CLAIMED),
            List.of(MessageState.FAILED),
            List.of(MessageState.SENT))) {
      found.addAll(
          messages
              .find(
                  "locationId = ?1 and state in ?2 and onDay >= ?3 order by onDay desc, id desc",
                  locationId,
                  states,
                  since)
              .page(0, MOST)
              .list());
    }
    Map<Long, List<Reminder>> items =
        found.isEmpty()
            ? Map.of()
            : reminders
                .list(
                    "messageId in ?1 and state <> ?2 order by dueAt, id",
                    found.stream().map(one -> one.id).toList(),
                    ReminderState.CANCELLED)
                .stream()
                .collect(Collectors.groupingBy(row -> row.messageId));
    List<Reminder> ahead =
        reminders
            .find(
                "locationId = ?1 and state = ?2 and dueAt > ?3 and dueAt < ?4 and route in ?5 order"
                    + " by dueAt, id",
                locationId,
                ReminderState.WAITING,
                now,
                now.plus(Duration.ofDays(AHEAD_DAYS)),
                List.of(Route.EMAIL, Route.TEXT))
            .page(0, MOST)
            .list();
    Set<Long> ids = new HashSet<>();
    found.forEach(one -> ids.add(one.patientId));
    ahead.forEach(one -> ids.add(one.patientId));
    Map<Long, PatientView> who = patients.byIds(ids);
    return new View(
        lines(found, List.of(MessageState.UNSENT), items, who),
        lines(found, List.of(MessageState.WAITING, MessageState.CLAIMED), items, who),
        lines(found, List.of(MessageState.FAILED), items, who),
        lines(found, List.of(MessageState.SENT), items, who),
        ahead(ahead, who));
  }

  /** What is due for one patient on one day is one message. */
  private static List<Ahead> ahead(List<Reminder> rows, Map<Long, PatientView> who) {
    Map<List<Object>, List<Reminder>> together = new LinkedHashMap<>();
    rows.forEach(
        row ->
            together
                .computeIfAbsent(List.of(row.onDay, row.patientId), key -> new ArrayList<>())
                .add(row));
    return together.values().stream()
        .map(
            some -> {
              PatientView patient = who.get(some.get(0).patientId);
              return new Ahead(
                  some.get(0).onDay,
                  patient.name(),
                  patient.chartNumber(),
                  some.get(0).route.words(),
                  some.stream().map(row -> row.words).distinct().collect(Collectors.joining("; ")));
            })
        .toList();
  }

  private List<Line> lines(
      List<Message> all,
      Collection<MessageState> states,
      Map<Long, List<Reminder>> items,
      Map<Long, PatientView> who) {
    return all.stream()
        .filter(one -> states.contains(one.state) && items.containsKey(one.id))
        .map(one -> line(one, items.get(one.id), who.get(one.patientId)))
        .toList();
  }

  private Line line(Message message, List<Reminder> items, PatientView patient) {
    boolean loan = items.stream().anyMatch(one -> one.loanId != null);
    return new Line(
        message.id,
        message.onDay,
        patient.name(),
        patient.chartNumber(),
        message.route.words(),
        items.stream().map(one -> one.words).distinct().toList(),
        composer
            .compose(
                patient,
                message.locationId,
                message.route,
                items.stream().map(Composer.Item::of).toList(),
                loan && links.base().isPresent() ? LINK : null,
                null)
            .lines(),
        message.sentAt == null ? message.nextAt : message.sentAt,
        message.tries,
        message.trouble);
  }

  @Transactional
  Letter letter(Long reminderId) {
    ReminderView row = book.byId(reminderId);
    Reminder reminder = reminders.findById(reminderId);
    PatientView patient = patients.byIds(List.of(reminder.patientId)).get(reminder.patientId);
    LocationView from = locations.byId(reminder.locationId);
    String lang = patient.language().startsWith("es") ? "es" : "en";
    return new Letter(
        from,
        lang,
        Composer.day(lang, locations.today(from.id())),
        patient.name(),
        patient.address() == null ? List.of() : patient.address().lines().toList(),
        composer.letter(patient, from.id(), row.about()));
  }

  @Transactional
  void bounced(Long id, String words) {
    Message message = mine(id);
    if (message.state != MessageState.SENT) {
      throw new Refusal(null, "This message was not sent.", "Look at the list again.");
    }
    book.bounced(message, words);
  }

  /** Somebody told the patient in another way. */
  @Transactional
  void told(Long id, String words) {
    Message message = mine(id);
    for (Reminder row :
        reminders.list("messageId = ?1 and state = ?2", message.id, ReminderState.WAITING)) {
      book.done(row.id, words);
    }
  }

  private Message mine(Long id) {
    Message message = messages.findById(id);
    if (message == null || !signedIn.mayActAt(message.locationId)) {
      throw new NotFound("There is no such message at your locations.");
    }
    return message;
  }
}
