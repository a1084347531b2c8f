package clinic.stimshelf.program;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.Happened;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.people.PatientView;
import clinic.stimshelf.people.Patients;
import clinic.stimshelf.web.Refusals;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** How programs end: decided by whoever treats, and a manager's matter where nobody does. */
@ApplicationScoped
public class EndDecisions {
  @Inject EndDecisionRows rows;
  @Inject ProgramRows programRows;
  @Inject Programs programs;
  @Inject Patients patients;
  @Inject Locations locations;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject Clock clock;

  /** A decision as pages and scripts see it. */
  public record View(String choice, String words, String note, Instant at, int version) {}

  /** An end nobody decided on. */
  public record Undecided(
      Long programId, String name, String chartNumber, LocalDate lastSessionOn, LocalDate dueOn) {}

  /**
   * Decides how the version in force ends. A later decision takes the place of an earlier one.
   *
   * @param words more about it, or {@code null}
   */
  @Transactional
  View decide(Long id, EndChoice choice, String words, EventTime at) {
    Program program = programs.locked(id);
    Refusals refusals = new Refusals();
    Happened happened = programs.eventOf(program, at, refusals);
    programs.treating(happened, program, refusals);
    if (program.state != ProgramState.SIGNED) {
      refusals.add(null, "Only a signed program that was not ended has an end to decide.");
    }
    if (choice == null) {
      refusals.add("choice", "How does it end?", "Choose one of the six.");
    }
    if (words != null && words.length() > 500) {
      refusals.add("words", "The words may have at most 500 characters.");
    }
    refusals.throwIfAny();
    EndDecision before = newest(id, program.signedNumber).orElse(null);
    EndDecision row = new EndDecision();
    row.programId = id;
    row.versionNumber = program.signedNumber;
    row.choice = choice;
    row.words = Writing.blankToNull(words);
    row.decidedAt = happened.at();
    row.recordedAt = clock.instant();
    row.decidedBy = signedIn.staffId();
    rows.persist(row);
    Map<String, Object> after = new LinkedHashMap<>();
    after.put("version", row.versionNumber);
    after.put("choice", choice.word());
    after.put("words", row.words);
    trail.record(
        Programs.subject(program),
        program.locationId,
        "end decided",
        happened,
        before == null ? null : Map.of("choice", before.choice.word()),
        after);
    return view(row);
  }

  /** What was decided about the end of the version in force. */
  @Transactional
  Optional<View> of(Long id) {
    Program program = programs.seen(id);
    return program.signedNumber == null
        ? Optional.empty()
        : newest(id, program.signedNumber).map(EndDecisions::view);
  }

  private Optional<EndDecision> newest(Long id, int version) {
    return rows.find(
            "programId = ?1 and versionNumber = ?2 order by recordedAt desc, id desc", id, version)
        .firstResultOptional();
  }

  private static View view(EndDecision row) {
    return new View(
        row.choice.word(), row.choice.words(), row.words, row.decidedAt, row.versionNumber);
  }

  /**
   * Those of the programs whose end is settled. A decision to extend or step down settles nothing
   * until the new version is signed, which has an end of its own.
   */
  Set<Long> decided(Collection<Program> some) {
    Set<Long> decided = new HashSet<>();
    if (!some.isEmpty()) {
      Map<Long, Integer> inForce = new LinkedHashMap<>();
      some.forEach(one -> inForce.put(one.id, one.signedNumber));
      for (EndDecision row :
          rows.list("programId in ?1 order by recordedAt, id", inForce.keySet())) {
        if (inForce.get(row.programId) == row.versionNumber) {
          if (row.choice.goesOnHere()) {
            decided.remove(row.programId);
          } else {
            decided.add(row.programId);
          }
        }
      }
    }
    return decided;
  }

  /** Ends at the location that have come so near that a manager hears of them. */
  @Transactional
  public List<Undecided> forManager(Long locationId) {
    LocalDate today = locations.today(locationId);
    int days = locations.settings(locationId).whole(Setting.END_TO_MANAGER_DAYS);
    List<Program> near =
        programRows.list(
            "select p from Program p join ProgramVersion v on v.program = p and v.number ="
                + " p.signedNumber where p.locationId = ?1 and p.state = ?2 and"
                + " v.lastSessionOn <= ?3 and v.dueOn >= ?4 order by v.lastSessionOn, p.id",
            locationId,
            ProgramState.SIGNED,
            today.plusDays(days),
            today);
    Set<Long> decided = decided(near);
    Map<Long, PatientView> who = patients.byIds(near.stream().map(one -> one.patientId).toList());
    return near.stream()
        .filter(one -> !decided.contains(one.id) && one.hold() == null)
        .filter(one -> who.get(one.patientId).diedOn() == null)
        .map(
            one ->
                new Undecided(
                    one.id,
                    who.get(one.patientId).name(),
                    who.get(one.patientId).chartNumber(),
                    one.signed().lastSessionOn,
                    one.signed().dueOn))
        .toList();
  }
}
