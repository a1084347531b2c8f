package clinic.stimshelf.loans;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitTags;
import clinic.stimshelf.shelf.UnitView;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;

/** Signed programs that wait for a unit: asked for, set aside, filled or withdrawn. */
@ApplicationScoped
public class Requests {
  private static final int USUAL = 2;

  @Inject UnitTags unitTags;
  @Inject LoanRequests rows;
  @Inject LoanRows loans;
  @Inject Programs programs;
  @Inject Patients patients;
  @Inject Shelf shelf;
  @Inject Locations locations;
  @Inject SureByDays sureBy;
  @Inject Trail trail;
  @Inject EventTimes times;

  /**
   * Asks for a unit.
   *
   * @return the request's number
   * @throws clinic.stimshelf.web.Refusal with everything that stands against it
   */
  @Transactional
  public Long ask(NewRequest wanted) {
    Refusals refusals = new Refusals();
    SignedProgram program = programs.signed(wanted.programId()).orElse(null);
    if (program == null) {
      refusals.add(
          "programId",
          "The program is not signed.",
          "A licensed PT signs it before a unit is asked for.");
    }
    int priority = wanted.priority() == null ? USUAL : wanted.priority();
    if (priority < 1 || priority > 3) {
      refusals.add("priority", "Priority is 1 (urgent), 2 (usual) or 3 (can wait).");
    }
    if (rows.count("openProgramId", wanted.programId()) > 0) {
      refusals.add("programId", "A unit is already asked for with this program.");
    }
    if (loans.count("openProgramId", wanted.programId()) > 0) {
      refusals.add("programId", "A unit is out with this program.", "Extend or swap the loan.");
    }
    refusals.throwIfAny();
    LoanRequest row = new LoanRequest();
    row.programId = program.programId();
    row.openProgramId = program.programId();
    row.patientId = program.patientId();
    row.locationId = program.locationId();
    row.channels = program.channels();
    row.neededFrom = wanted.neededFrom() == null ? program.startsOn() : wanted.neededFrom();
    row.priority = priority;
    row.waitingSince = times.now().at();
    row.state = RequestState.OPEN;
    row.agreementVersion = wanted.agreementVersion();
    rows.persist(row);
    trail.record(
        Subject.of("program", row.programId),
        row.locationId,
        "unit asked for",
        times.now(),
        null,
        Map.of("neededFrom", row.neededFrom, "priority", priority));
    return row.id;
  }

  /** Sets a ready unit aside for the request; another one set aside before is let go. */
  @Transactional
  public void reserve(Long id, String unitTag) {
    LoanRequest row = open(id);
    UnitView unit = shelf.byTag(unitTag);
    if (Objects.equals(row.unitId, unit.id())) {
      return;
    }
    if (row.unitId != null) {
      shelf.release(row.unitId, times.now());
    }
    shelf.reserve(unit.id(), row.id, times.now());
    row.reserved(unit.id());
    trail.record(
        Subject.of("program", row.programId),
        row.locationId,
        "unit set aside",
        times.now(),
        null,
        Map.of("unit", unitTag));
  }

  /** Lets the unit go that was set aside. */
  @Transactional
  public void unreserve(Long id) {
    LoanRequest row = open(id);
    if (row.unitId != null) {
      shelf.release(row.unitId, times.now());
      row.unreserved();
    }
  }

  /** Ends a request that is no longer wanted. */
  @Transactional
  public void withdraw(Long id, String reason) {
    Refusals refusals = new Refusals();
    if (reason == null || reason.isBlank()) {
      refusals.add("reason", "Say why no unit is wanted any more.");
    }
    refusals.throwIfAny();
    LoanRequest row = open(id);
    if (row.unitId != null) {
      shelf.release(row.unitId, times.now());
    }
    row.withdrawn(reason.strip());
    trail.record(
        Subject.of("program", row.programId),
        row.locationId,
        "request withdrawn",
        times.now(),
        null,
        Map.of("reason", reason.strip()));
  }

  /** Where the request waits. */
  @Transactional
  public Long locationOf(Long id) {
    LoanRequest row = rows.findById(id);
    if (row == null) {
      throw new NotFound("There is no such request.");
    }
    return row.locationId;
  }

  @Transactional
  public RequestView byId(Long id) {
    LoanRequest row = rows.findById(id);
    if (row == null) {
      throw new NotFound("There is no such request.");
    }
    return views(List.of(row)).get(0);
  }

  /** Requests in the order in which they are served: priority, needed-from day, waiting since. */
  @Transactional
  public Page<RequestView> list(Collection<Long> locationIds, boolean openOnly, Paging paging) {
    String where = "locationId in ?1" + (openOnly ? " and openProgramId is not null" : "");
    List<LoanRequest> page =
        rows.find(where + " order by priority, neededFrom, waitingSince, id", locationIds)
            .page(paging.page(), paging.size())
            .list();
    return new Page<>(views(page), paging.page(), paging.size(), rows.count(where, locationIds));
  }

  /** Open requests of one location, in serving order. */
  @Transactional
  public List<RequestView> openAt(Long locationId) {
    return views(queue(List.of(locationId)));
  }

  /** The same without their outlook, for a list that must come at once. */
  @Transactional
  public List<Waiting> waitingAt(Long locationId) {
    return waiting(queue(List.of(locationId)));
  }

  /** Open requests of a patient. */
  @Transactional
  public List<Waiting> waitingOf(Long patientId) {
    return waiting(
        rows.list("patientId = ?1 and openProgramId is not null order by neededFrom", patientId));
  }

  private List<Waiting> waiting(List<LoanRequest> open) {
    Map<Long, PatientView> who =
        patients.byIds(open.stream().map(row -> row.patientId).distinct().toList());
    Map<Long, UnitView> units =
        shelf.byIds(open.stream().map(row -> row.unitId).filter(Objects::nonNull).toList());
    return open.stream()
        .map(
            row ->
                new Waiting(
                    row.id,
                    row.programId,
                    row.patientId,
                    who.get(row.patientId).chartNumber(),
                    row.locationId,
                    row.neededFrom,
                    row.channels,
                    row.unitId,
                    row.unitId == null ? null : units.get(row.unitId).tag()))
        .toList();
  }

  List<LoanRequest> queue(Collection<Long> locationIds) {
    return rows.list(
        "locationId in ?1 and openProgramId is not null order by priority, neededFrom,"
            + " waitingSince, id",
        locationIds);
  }

  private LoanRequest open(Long id) {
    LoanRequest row = rows.findById(id);
    if (row == null) {
      throw new NotFound("There is no such request.");
    }
    if (!row.open()) {
      throw new clinic.stimshelf.web.Refusal(
          null, "The request is " + row.state.word() + " already.");
    }
    return row;
  }

  private List<RequestView> views(List<LoanRequest> page) {
    if (page.isEmpty()) {
      return List.of();
    }
    List<Long> at = page.stream().map(row -> row.locationId).distinct().toList();
    List<LoanRequest> waiting = queue(at);
    Map<Long, PatientView> who =
        patients.byIds(page.stream().map(row -> row.patientId).distinct().toList());
    Map<Long, String> tags =
        unitTags.of(page.stream().map(row -> row.unitId).filter(Objects::nonNull).toList());
    Map<Long, LocationView> places =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, one -> one));
    Map<Long, Outlook> outlooks = sureBy.of(page, waiting);
    List<RequestView> views = new ArrayList<>();
    for (LoanRequest row : page) {
      Outlook outlook = outlooks.get(row.id);
      views.add(
          new RequestView(
              String.valueOf(row.id),
              String.valueOf(row.programId),
              String.valueOf(row.patientId),
              who.get(row.patientId).chartNumber(),
              places.get(row.locationId).code(),
              row.neededFrom,
              row.priority,
              row.channels,
              row.state,
              row.unitId == null ? null : tags.get(row.unitId),
              row.waitingSince,
              outlook.ahead(),
              outlook.sureByOn(),
              outlook.reason(),
              outlook.chance(),
              row.version));
    }
    return views;
  }

  /** Those that come first at the location and have no unit set aside yet. */
  static List<LoanRequest> ahead(LoanRequest row, List<LoanRequest> waiting) {
    List<LoanRequest> before = new ArrayList<>();
    for (LoanRequest other : waiting) {
      if (other.id.equals(row.id)) {
        break;
      }
      if (other.locationId.equals(row.locationId) && other.unitId == null) {
        before.add(other);
      }
    }
    return before;
  }

  /** Those that come later in line at the location and have no unit set aside. */
  static List<LoanRequest> behind(LoanRequest row, List<LoanRequest> waiting) {
    int at = 0;
    while (at < waiting.size() && !waiting.get(at).id.equals(row.id)) {
      at++;
    }
    return waiting.subList(Math.min(at + 1, waiting.size()), waiting.size()).stream()
        .filter(other -> other.locationId.equals(row.locationId) && other.unitId == null)
        .toList();
  }

  /** When the request can be served, and what that stands on. */
  @Transactional
  Outlook outlook(Long id) {
    LoanRequest row = open(id);
    return sureBy.inFull(row, queue(List.of(row.locationId)));
  }

  /** The day from which a unit is wanted, at least today. */
  static LocalDate wished(LoanRequest row, LocalDate today) {
    return row.neededFrom.isBefore(today) ? today : row.neededFrom;
  }
}
