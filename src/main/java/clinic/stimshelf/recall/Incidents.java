package clinic.stimshelf.recall;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.pads.PadSets;
import clinic.stimshelf.shelf.FaultKind;
import clinic.stimshelf.shelf.UnitCare;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import clinic.stimshelf.web.Retried;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.LockModeType;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * Incidents: what happened, how everything stood, who was told, and until when a report may be due.
 * The unit and the patient's pads are held in the transaction that enters it.
 */
@Retried
@ApplicationScoped
public class Incidents {
  @Inject IncidentRows rows;
  @Inject IncidentToldRows toldRows;
  @Inject IncidentScene scene;
  @Inject IncidentReading reading;
  @Inject Freezing freezing;
  @Inject UnitCare care;
  @Inject PadSets sets;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject ObjectMapper json;
  @Inject Clock clock;

  /**
   * Enters an incident.
   *
   * @return its number
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public Long enter(NewIncident wanted) {
    Refusals refusals = new Refusals();
    Incident row = new Incident();
    Instant now = clock.instant();
    row.happenedAt = wanted.happenedAt() == null ? now : wanted.happenedAt();
    row.words = Said.text("words", "What happened", wanted.words(), 1000, true, refusals);
    if (wanted.kind() == null) {
      refusals.add("kind", "What was it?", "Choose burn, skin reaction, fault or something else.");
    }
    if (wanted.harm() == null) {
      refusals.add("harm", "Was somebody harmed?", "Choose what is known; more can be told later.");
    }
    if (row.happenedAt.isAfter(now.plusSeconds(60))) {
      refusals.add("happenedAt", "The time lies in the future.", "Enter when it took place.");
    }
    IncidentScene.Found found =
        scene.find(wanted.unitTag(), wanted.chartNumber(), row.happenedAt, refusals);
    refusals.throwIfAny();
    row.locationId =
        found.patient() == null ? found.unit().locationId() : found.patient().locationId();
    signedIn.requireLocation(row.locationId);
    ZoneId zone = locations.zone(row.locationId);
    LocalDate today = LocalDate.ofInstant(now, zone);
    row.awareOn = wanted.awareOn() == null ? today : wanted.awareOn();
    if (row.awareOn.isAfter(today)
        || row.awareOn.isBefore(LocalDate.ofInstant(row.happenedAt, zone))) {
      refusals.add("awareOn", "The clinic heard of it after it happened and not later than today.");
    }
    refusals.throwIfAny();
    row.reportDays = locations.settings(row.locationId).whole(Setting.INCIDENT_REPORT_DAYS);
    row.kind = wanted.kind();
    row.harm = wanted.harm();
    row.patientId = found.patient() == null ? null : found.patient().id();
    row.loanId = found.loan() == null ? null : Long.valueOf(found.loan().id());
    row.unitId = found.unit() == null ? null : found.unit().id();
    row.recordedAt = now;
    row.byName = signedIn.name();
    row.state = RecallState.OPEN;
    row.snapshot = write(freezing.take(found, zone));
    rows.persist(row);
    trail.record(
        subject(row),
        row.locationId,
        "entered",
        Happened.at(row.happenedAt),
        null,
        facts(row, found));
    hold(row, found);
    return row.id;
  }

  private void hold(Incident row, IncidentScene.Found found) {
    Happened now = times.now();
    String why = "Incident " + row.id + ": " + row.kind.words() + ". Keep it as it is.";
    if (found.unit() != null) {
      if (row.kind == IncidentKind.FAULT) {
        care.trouble(found.unit().tag(), FaultKind.FAULT, why, now);
      }
      care.hold(found.unit().tag(), why, now);
    }
    if (row.patientId != null) {
      sets.holdBack(row.patientId, why, now);
    }
  }

  private static Map<String, Object> facts(Incident row, IncidentScene.Found found) {
    Map<String, Object> facts = new LinkedHashMap<>();
    facts.put("kind", row.kind);
    facts.put("harm", row.harm);
    facts.put("unit", found.unit() == null ? null : found.unit().tag());
    facts.put("patient", row.patientId == null ? null : String.valueOf(row.patientId));
    facts.put("loan", row.loanId == null ? null : String.valueOf(row.loanId));
    facts.put("awareOn", row.awareOn);
    return facts;
  }

  /**
   * Somebody was told, or it was decided not to tell them.
   *
   * @throws Refusal with everything that stands against it
   */
  @Transactional
  public void tell(Long id, NewTold entry) {
    Incident row = row(id);
    Refusals refusals = new Refusals();
    IncidentTold told = new IncidentTold();
    if (entry.whom() == null) {
      refusals.add("whom", "Who was told?", "Choose one of the five.");
    }
    told.spokeWith =
        Said.text(
            "spokeWith", "The person or office", entry.spokeWith(), 120, entry.told(), refusals);
    told.reference =
        Said.text("reference", "The reference", entry.reference(), 120, false, refusals);
    told.words =
        Said.text(
            "words",
            entry.told() ? "The note" : "The reason for not telling them",
            entry.words(),
            500,
            !entry.told(),
            refusals);
    Happened happened =
        times.of(entry.happenedAt(), entry.lateReason(), locations.zone(row.locationId), refusals);
    if (happened.at().plusSeconds(60).isBefore(row.happenedAt)) {
      refusals.add("happenedAt", "The incident took place only later.", "Enter a time after that.");
    }
    refusals.throwIfAny();
    told.incidentId = row.id;
    told.whom = entry.whom();
    told.told = entry.told();
    told.happenedAt = happened.at();
    told.recordedAt = clock.instant();
    told.lateReason = happened.lateReason();
    told.byName = signedIn.name();
    toldRows.persist(told);
    trail.record(
        subject(row), row.locationId, told.told ? "told" : "not told", happened, null, told.view());
  }

  /**
   * Closes it: the unit may then go to inspection.
   *
   * @throws Refusal naming everybody of whom nothing is said yet
   */
  @Transactional
  public void close(Long id, String words) {
    Incident row = locked(id);
    Refusals refusals = new Refusals();
    if (!row.open()) {
      refusals.add("state", "This incident is closed.");
    }
    String what = Said.text("words", "What was found and done", words, 500, true, refusals);
    for (Whom whom : reading.untold(row.id)) {
      refusals.add(
          "told",
          "Nothing is said of " + whom.words() + ".",
          "Enter when they were told, or why they are not.");
    }
    refusals.throwIfAny();
    row.state = RecallState.CLOSED;
    row.closedAt = clock.instant();
    row.closedBy = signedIn.name();
    row.closedWords = what;
    trail.record(subject(row), row.locationId, "closed", times.now(), null, Map.of("words", what));
  }

  /** One incident in full. */
  @Transactional
  public IncidentView byId(Long id) {
    return reading.view(row(id));
  }

  /** Incidents at the locations, open ones first, then the newest. */
  @Transactional
  public Page<IncidentLine> list(Collection<Long> locationIds, Paging paging) {
    if (locationIds.isEmpty()) {
      return new Page<>(List.of(), paging.page(), paging.size(), 0);
    }
    return new Page<>(
        reading.lines(
            rows.find(
                    "locationId in ?1 order by case when state = ?2 then 0 else 1 end, happenedAt"
                        + " desc, id desc",
                    locationIds,
                    RecallState.OPEN)
                .page(paging.page(), paging.size())
                .list()),
        paging.page(),
        paging.size(),
        rows.count("locationId in ?1", locationIds));
  }

  /** Open incidents of a location, the report day that comes first before the others. */
  @Transactional
  public List<IncidentLine> openAt(Long locationId) {
    return reading.lines(
        rows.list(
            "locationId = ?1 and state = ?2 order by awareOn, id", locationId, RecallState.OPEN));
  }

  private Incident row(Long id) {
    Incident row = rows.findById(id);
    if (row == null) {
      throw new NotFound("There is no such incident.");
    }
    signedIn.requireLocation(row.locationId);
    return row;
  }

  private Incident locked(Long id) {
    row(id);
    return Objects.requireNonNull(rows.findById(id, LockModeType.PESSIMISTIC_WRITE));
  }

  private String write(Frozen frozen) {
    try {
      return json.writeValueAsString(frozen);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("What is frozen cannot be written", e);
    }
  }

  private static Subject subject(Incident row) {
    return Subject.of("incident", row.id);
  }
}
