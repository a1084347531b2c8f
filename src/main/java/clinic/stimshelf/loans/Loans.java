package clinic.stimshelf.loans;

import clinic.stimshelf.calc.days.OpenDays;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.program.ProgramState;
import clinic.stimshelf.program.Programs;
import clinic.stimshelf.program.SettingGaps;
import clinic.stimshelf.program.SignedProgram;
import clinic.stimshelf.shelf.Shelf;
import clinic.stimshelf.shelf.UnitTags;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The loans as they stand: looked up, listed, told in full. */
@ApplicationScoped
public class Loans {
  @Inject UnitTags tags;
  @Inject LoanRows rows;
  @Inject LoanChanges changes;
  @Inject LoanParts parts;
  @Inject LoanOwedRows owed;
  @Inject Shelf shelf;
  @Inject Patients patients;
  @Inject Programs programs;
  @Inject SettingGaps gaps;
  @Inject Locations locations;
  @Inject ReminderDays reminders;

  /**
   * One loan in full.
   *
   * @throws NotFound if there is none
   */
  @Transactional
  public LoanView byId(Long id) {
    return views(List.of(row(id))).get(0);
  }

  /** The open loan of a unit, whoever brings it. */
  @Transactional
  public Optional<LoanView> openOf(Long unitId) {
    return rows.find("unitId = ?1 and openProgramId is not null", unitId)
        .firstResultOptional()
        .map(row -> views(List.of(row)).get(0));
  }

  /** The same by the tag of the unit or of a part of its kit. */
  @Transactional
  public Optional<LoanView> openOfTag(String tag) {
    return openOf(tags.unit(tag).id());
  }

  /** The location that lent it. */
  @Transactional
  public Long locationOf(Long id) {
    return row(id).locationId;
  }

  /** Open loans of a location, first due first. */
  @Transactional
  public List<LoanView> openAt(Long locationId) {
    return views(
        rows.list("locationId = ?1 and openProgramId is not null order by dueOn, id", locationId));
  }

  /** Loans by due day, open ones only or all. */
  @Transactional
  public Page<LoanView> list(Collection<Long> locationIds, boolean openOnly, Paging paging) {
    String where = "locationId in ?1" + (openOnly ? " and openProgramId is not null" : "");
    return new Page<>(
        views(
            rows.find(where + " order by dueOn desc, id desc", locationIds)
                .page(paging.page(), paging.size())
                .list()),
        paging.page(),
        paging.size(),
        rows.count(where, locationIds));
  }

  /** Loans of a patient, newest first. */
  @Transactional
  public List<LoanView> ofPatient(Long patientId) {
    return views(rows.list("patientId = ?1 order by checkedOutAt desc", patientId));
  }

  /** The open loans of several patients. */
  @Transactional
  public List<LoanView> openOfPatients(Collection<Long> patientIds) {
    return patientIds.isEmpty()
        ? List.of()
        : views(rows.list("patientId in ?1 and openProgramId is not null order by id", patientIds));
  }

  /** Whose units are out from one of the locations. */
  @Transactional
  public List<Long> borrowers(Collection<Long> locationIds) {
    return rows.find(
            "select distinct patientId from Loan where locationId in ?1 and openProgramId is not"
                + " null",
            locationIds)
        .project(Long.class)
        .list();
  }

  /** The open loan that follows a program. */
  @Transactional
  public Optional<LoanView> ofProgram(Long programId) {
    return rows.find("openProgramId", programId)
        .firstResultOptional()
        .map(row -> views(List.of(row)).get(0));
  }

  /**
   * The ladder of messages of a loan, past and to come, up to its end; while its program is stopped
   * only what people do.
   */
  @Transactional
  public List<ReminderDays.Rung> ladder(Long id) {
    return ladders(List.of(row(id).id)).get(id);
  }

  /** The ladders of several loans, with as many questions to the database as for one. */
  @Transactional
  public Map<Long, List<ReminderDays.Rung>> ladders(Collection<Long> ids) {
    List<Loan> page = ids.isEmpty() ? List.of() : rows.list("id in ?1", ids);
    Map<Long, SignedProgram> signed = signedOf(page);
    Map<Long, OpenDays> open = openOf(page);
    return page.stream()
        .collect(Collectors.toMap(loan -> loan.id, loan -> ladder(loan, signed, open)));
  }

  Loan row(Long id) {
    Loan row = id == null ? null : rows.findById(id);
    if (row == null) {
      throw new NotFound("There is no such loan.");
    }
    return row;
  }

  List<LoanView> views(List<Loan> page) {
    if (page.isEmpty()) {
      return List.of();
    }
    List<Long> ids = page.stream().map(loan -> loan.id).toList();
    Map<Long, List<LoanChange>> turns =
        changes.list("loanId in ?1 order by happenedAt, id", ids).stream()
            .collect(Collectors.groupingBy(change -> change.loanId));
    Map<Long, List<LoanPart>> went =
        parts.list("loanId in ?1 order by id", ids).stream()
            .collect(Collectors.groupingBy(part -> part.loanId));
    Map<Long, List<LoanOwed>> debts =
        owed.list("loanId in ?1 order by dueOn nulls first, id", ids).stream()
            .collect(Collectors.groupingBy(row -> row.loanId));
    Map<Long, String> tagOf =
        tags.of(
            Stream.concat(
                    page.stream().map(loan -> loan.unitId),
                    turns.values().stream()
                        .flatMap(List::stream)
                        .flatMap(turn -> Stream.of(turn.fromUnitId, turn.toUnitId)))
                .filter(Objects::nonNull)
                .distinct()
                .toList());
    Map<Long, PatientView> who =
        patients.byIds(page.stream().map(loan -> loan.patientId).distinct().toList());
    Map<Long, LocationView> places =
        locations.all().stream().collect(Collectors.toMap(LocationView::id, Function.identity()));
    Map<Long, SignedProgram> signed = signedOf(page);
    Map<Long, OpenDays> open = openOf(page);
    Map<Long, SettingGaps.Gap> toSet =
        gaps.of(
            page.stream()
                .filter(loan -> loan.state == LoanState.OUT)
                .collect(Collectors.toMap(loan -> loan.programId, loan -> loan.unitId)));
    List<LoanView> views = new ArrayList<>();
    for (Loan loan : page) {
      views.add(
          new LoanView(
              String.valueOf(loan.id),
              tagOf.get(loan.unitId),
              String.valueOf(loan.patientId),
              who.get(loan.patientId).chartNumber(),
              String.valueOf(loan.programId),
              loan.programVersion,
              places.get(loan.locationId).code(),
              loan.checkedOutAt,
              loan.dueOn,
              loan.dueKind,
              loan.bringInOn,
              loan.returnedAt,
              loan.returnedLocationId == null ? null : places.get(loan.returnedLocationId).code(),
              loan.state,
              debts.getOrDefault(loan.id, List.of()).stream().map(OwedView::of).toList(),
              went.getOrDefault(loan.id, List.of()).stream().map(Loans::part).toList(),
              turns.getOrDefault(loan.id, List.of()).stream()
                  .map(turn -> change(turn, tagOf))
                  .toList(),
              ladder(loan, signed, open).stream().map(ReminderDays.Rung::day).distinct().toList(),
              loan.state == LoanState.OUT ? toSet.get(loan.programId) : null,
              loan.version));
    }
    return views;
  }

  private Map<Long, SignedProgram> signedOf(List<Loan> page) {
    return programs.signed(page.stream().map(loan -> loan.programId).distinct().toList());
  }

  private Map<Long, OpenDays> openOf(List<Loan> page) {
    return page.stream()
        .map(loan -> loan.locationId)
        .distinct()
        .collect(Collectors.toMap(Function.identity(), locations::openDays));
  }

  private List<ReminderDays.Rung> ladder(
      Loan loan, Map<Long, SignedProgram> signed, Map<Long, OpenDays> open) {
    SignedProgram program = signed.get(loan.programId);
    LocalDate out = LocalDate.ofInstant(loan.checkedOutAt, locations.zone(loan.locationId));
    List<ReminderDays.Rung> rungs =
        reminders.ladder(
            new LoanFacts(
                loan.locationId,
                open.get(loan.locationId),
                out,
                program == null ? out : program.startsOn(),
                program == null ? loan.dueOn : program.lastSessionOn(),
                loan.dueOn,
                program == null ? List.of() : program.padChanges()));
    if (!loan.open()) {
      LocalDate end = LocalDate.ofInstant(loan.endedAt(), locations.zone(loan.locationId));
      return rungs.stream().filter(rung -> !rung.day().isAfter(end)).toList();
    }
    // Nothing is sent by itself while the program is stopped, nor what was left over from before.
    return program != null && program.state() == ProgramState.HELD
        ? rungs.stream().filter(rung -> !rung.channel().equals("message")).toList()
        : rungs;
  }

  private static LoanView.PartView part(LoanPart row) {
    return new LoanView.PartView(
        String.valueOf(row.id), row.words, row.essential, row.wentAlong, row.cameBack);
  }

  private static LoanView.ChangeView change(LoanChange row, Map<Long, String> tags) {
    return new LoanView.ChangeView(
        row.kind,
        row.happenedAt,
        row.recordedAt,
        row.byName,
        tags.get(row.fromUnitId),
        tags.get(row.toUnitId),
        row.fromDue,
        row.toDue,
        row.reason);
  }
}
