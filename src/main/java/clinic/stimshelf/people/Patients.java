package clinic.stimshelf.people;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.IfMatch;
import clinic.stimshelf.web.JustEntered;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import io.quarkus.panache.common.Parameters;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Who is treated and how each one is reached. Owns what may be entered and who may see it. */
@ApplicationScoped
public class Patients {
  @Inject PatientRows rows;
  @Inject SignedIn signedIn;
  @Inject Locations locations;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject JustEntered justEntered;
  @Inject Event<PatientChanged> changed;

  /**
   * @throws NotFound if there is none at the locations of the person asking
   */
  @Transactional
  public PatientView byId(Long id) {
    return row(id).view();
  }

  /** The patient with the chart number, upper or lower case, at the asking person's locations. */
  @Transactional
  public Optional<PatientView> byChart(String chartNumber) {
    return rows.find("chartSearch", chart(chartNumber))
        .firstResultOptional()
        .filter(row -> signedIn.mayActAt(row.locationId))
        .map(Patient::view);
  }

  /** The patient whom a file calls that. */
  @Transactional
  public Optional<PatientView> byRef(String ref) {
    return rows.find("ref", ref).firstResultOptional().map(Patient::view);
  }

  /** Several at once, for lists; who is not there is absent. */
  @Transactional
  public Map<Long, PatientView> byIds(Collection<Long> ids) {
    Set<Long> wanted = new HashSet<>(ids);
    wanted.remove(null);
    return wanted.isEmpty()
        ? Map.of()
        : rows.list("id in ?1", wanted).stream()
            .collect(Collectors.toMap(row -> row.id, Patient::view));
  }

  /**
   * Whoever has the telephone number.
   *
   * @param number compared by its last ten digits, with or without the country in front
   */
  @Transactional
  public List<PatientView> withPhone(String number) {
    String digits = lastTen(number);
    return digits.length() < 7
        ? List.of()
        : rows.list("phone like ?1", "%" + digits.substring(digits.length() - 4) + "%").stream()
            .filter(row -> lastTen(row.phone).equals(digits))
            .map(Patient::view)
            .toList();
  }

  private static String lastTen(String number) {
    String digits = number.replaceAll("\\D", "");
    return digits.substring(Math.max(0, digits.length() - 10));
  }

  /**
   * Finds by what is typed: a chart number or its beginning, beginnings of names, a birth date, or
   * several of them.
   *
   * @throws Malformed if nothing to look for is said
   */
  @Transactional
  public Page<PatientView> find(String text, Paging paging) {
    List<String> conditions = new ArrayList<>();
    Parameters values = Parameters.with("locations", withNobody(signedIn.locationIds()));
    for (String word : Patient.forSearch(text == null ? "" : text).split(" ")) {
      if (word.isEmpty()) {
        continue;
      }
      String name = "v" + conditions.size();
      LocalDate day = day(word);
      if (day != null) {
        conditions.add("birthDate = :" + name);
        values.and(name, day);
      } else {
        conditions.add(
            "(chartSearch like :%1$s escape '!' or nameSearch like :%1$sn escape '!')"
                .formatted(name));
        values.and(name, plain(word) + "%").and(name + "n", "% " + plain(word) + "%");
      }
    }
    if (conditions.isEmpty() || conditions.size() > 8) {
      throw new Malformed(
          "q", "Say whom you look for: a chart number, up to 8 words of a name, or a birth date.");
    }
    String where = "locationId in :locations and " + String.join(" and ", conditions);
    List<PatientView> items =
        rows
            .find(where + " order by nameSearch, birthDate, id", values)
            .page(paging.page(), paging.size())
            .stream()
            .map(Patient::view)
            .toList();
    return new Page<>(items, paging.page(), paging.size(), rows.count(where, values));
  }

  /**
   * Adds a patient.
   *
   * @return the new number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long add(NewPatient entry) {
    Patient row = create(entry, false);
    trail.record(subject(row.id), row.locationId, "added", times.now(), null, row.view());
    changed.fire(new PatientChanged(row.id));
    return row.id;
  }

  /**
   * Adds a patient of a file. A known {@code ref} changes nothing.
   *
   * @return the number of the new or the known patient
   * @throws clinic.stimshelf.web.Refusal with everything that stands against the row
   */
  @Transactional
  public Long enter(NewPatient entry) {
    Long known = justEntered.find("patient", entry.ref());
    if (known == null && entry.ref() != null) {
      known = rows.number("ref", entry.ref()).orElse(null);
    }
    if (known != null) {
      return known;
    }
    Patient row = create(entry, true);
    justEntered.add("patient", entry.ref(), row.id);
    justEntered.add("chart", row.chartSearch, row.id);
    trail.record(subject(row.id), row.locationId, "imported", times.now(), null, row.view());
    return row.id;
  }

  /**
   * Changes a patient's entry.
   *
   * @param version as read; {@code null} to change whatever stands there
   * @throws clinic.stimshelf.web.Stale if somebody changed it meanwhile
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public PatientView change(Long id, Integer version, NewPatient entry) {
    Patient row = row(id);
    IfMatch.require(version, row.version, "This patient's entry");
    check(entry, row, false);
    PatientView before = row.view();
    fill(row, entry);
    rows.flush();
    PatientView after = row.view();
    if (after.version() != before.version()) {
      trail.record(subject(id), row.locationId, "changed", times.now(), before, after);
      changed.fire(new PatientChanged(id));
    }
    return after;
  }

  /**
   * The patient died: nothing is sent, called or written any more, by any way.
   *
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public PatientView died(Long id, LocalDate on) {
    Patient row = row(id);
    Refusals refusals = new Refusals();
    LocalDate today = locations.today(row.locationId);
    LocalDate day = on == null ? today : on;
    if (row.diedOn != null) {
      refusals.add("diedOn", "The death is on record already.");
    } else if (day.isAfter(today) || day.isBefore(row.birthDate)) {
      refusals.add("diedOn", "The day of death lies between the birth date and today.");
    }
    refusals.throwIfAny();
    row.diedOn = day;
    rows.flush();
    trail.record(
        subject(id), row.locationId, "death recorded", times.now(), null, Map.of("diedOn", day));
    changed.fire(new PatientChanged(id));
    return row.view();
  }

  /** The death was entered by mistake; what is called for is told again from now on. */
  @Transactional
  public PatientView deathWithdrawn(Long id, String reason) {
    Patient row = row(id);
    Refusals refusals = new Refusals();
    if (row.diedOn == null) {
      refusals.add(null, "No death is on record.");
    }
    PatientChecks.length(reason, "deathReason", "Why it is taken back", 500, true, refusals);
    refusals.throwIfAny();
    LocalDate before = row.diedOn;
    row.diedOn = null;
    rows.flush();
    trail.record(
        subject(id),
        row.locationId,
        "death entered by mistake",
        times.now(),
        Map.of("diedOn", before),
        Map.of("reason", reason.strip()));
    changed.fire(new PatientChanged(id));
    return row.view();
  }

  /** What the patient said about messages, when a consent is recorded. */
  void allowReminders(Long id, boolean allowed) {
    Patient row = row(id);
    if (row.remindersAllowed != allowed) {
      row.remindersAllowed = allowed;
      changed.fire(new PatientChanged(id));
    }
  }

  static Subject subject(Long id) {
    return Subject.of("patient", id);
  }

  private Patient row(Long id) {
    Patient row = id == null ? null : rows.findById(id);
    if (row == null || !signedIn.mayActAt(row.locationId)) {
      throw new NotFound("There is no such patient at your locations.");
    }
    return row;
  }

  private Patient create(NewPatient entry, boolean fromFile) {
    check(entry, null, fromFile);
    Patient row = new Patient();
    row.ref = entry.ref();
    fill(row, entry);
    rows.persist(row);
    return row;
  }

  /** What would stand against the entry; {@code id} is the patient it is for, or {@code null}. */
  @Transactional
  List<Reason> problems(NewPatient entry, Long id) {
    try {
      check(entry, id == null ? null : row(id), false);
      return List.of();
    } catch (Refusal refusal) {
      return refusal.reasons();
    }
  }

  private void check(NewPatient entry, Patient row, boolean fromFile) {
    Refusals refusals = new Refusals();
    if (entry.locationId() == null || !signedIn.mayActAt(entry.locationId())) {
      refusals.add("location", "Name one of your locations.");
      refusals.throwIfAny();
    }
    PatientChecks.check(entry, locations.today(entry.locationId()), refusals);
    if (row != null && row.diedOn != null && entry.diedOn() == null) {
      refusals.add(
          "diedOn",
          "A death on record is not emptied.",
          "Take it back with a reason, on the patient’s page.");
    }
    String chart = chart(entry.chartNumber());
    Long other = fromFile ? justEntered.find("chart", chart) : null;
    if (other == null) {
      other = rows.number("chartSearch", chart).orElse(null);
    }
    if (other != null && (row == null || !other.equals(row.id))) {
      refusals.add(
          "chartNumber",
          "Another patient has the chart number " + entry.chartNumber().strip() + ".",
          "Look that patient up, or give another number.");
    }
    refusals.throwIfAny();
  }

  private static void fill(Patient row, NewPatient entry) {
    row.locationId = entry.locationId();
    row.chartNumber = entry.chartNumber().strip();
    row.chartSearch = chart(entry.chartNumber());
    row.name = entry.name().strip();
    row.nameSearch = " " + Patient.forSearch(entry.name());
    row.birthDate = entry.birthDate();
    row.guardianName = PatientChecks.orNull(entry.guardianName());
    row.guardianRelation = PatientChecks.orNull(entry.guardianRelation());
    row.language = entry.language() == null ? "en" : entry.language();
    row.interpreter = entry.interpreter();
    row.reachBy = entry.reachBy();
    row.phone = PatientChecks.orNull(entry.phone());
    row.email = PatientChecks.orNull(entry.email());
    row.address = PatientChecks.orNull(entry.address());
    row.remindersAllowed = entry.remindersAllowed();
    row.diedOn = entry.diedOn();
  }

  private static String chart(String chartNumber) {
    return chartNumber == null ? "" : chartNumber.strip().toLowerCase(Locale.ROOT);
  }

  private static LocalDate day(String word) {
    try {
      return Days.parse(word);
    } catch (DateTimeException aWord) {
      return null;
    }
  }

  private static String plain(String word) {
    return word.replaceAll("([!%_])", "!$1");
  }

  /** An empty list is no SQL; nobody works at location -1. */
  private static List<Long> withNobody(List<Long> locationIds) {
    return locationIds.isEmpty() ? List.of(-1L) : locationIds;
  }
}
