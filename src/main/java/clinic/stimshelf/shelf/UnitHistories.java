package clinic.stimshelf.shelf;

import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.audit.TrailEntry;
import clinic.stimshelf.web.Days;
import clinic.stimshelf.web.Retried;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Puts uses, wipes, inspections, tests, charges, faults and the trail on one line of time. */
@Retried
@ApplicationScoped
public class UnitHistories {
  /** What the rows themselves tell better than the trail. */
  private static final Set<String> TOLD_BY_ROWS =
      Set.of(
          "wiped",
          "inspected",
          "inspection failed",
          "charging",
          "charged",
          "tested",
          "test failed",
          "trouble",
          "dropped",
          "lent",
          "treatment begun",
          "came back",
          "treatment ended",
          "imported");

  @Inject Units units;
  @Inject UnitUses uses;
  @Inject Wipes wipes;
  @Inject Inspections inspections;
  @Inject InspectionAnswers answers;
  @Inject SafetyTests tests;
  @Inject Charges charges;
  @Inject UnitFaults faults;
  @Inject WipeProducts products;
  @Inject Trail trail;
  @Inject EntityManager database;

  @Transactional
  public UnitHistory of(String tag) {
    Unit unit = units.byId(units.idOf(tag));
    List<TrailEntry> entries = trail.of(Subject.of("unit", unit.tag));
    List<HistoryLine> lines = new ArrayList<>();
    uses.of(unit.id).forEach(use -> lines.add(line(use)));
    wipes.list("unitId", unit.id).forEach(wipe -> lines.add(line(wipe)));
    addInspections(unit.id, lines);
    tests.list("unitId", unit.id).forEach(test -> lines.add(line(test)));
    charges.list("unitId", unit.id).forEach(charge -> lines.add(line(charge)));
    faults
        .list(
            "unitId = ?1 and faultKind in ?2",
            unit.id,
            List.of(FaultKind.FAULT, FaultKind.DROP, FaultKind.SWOLLEN))
        .forEach(fault -> lines.add(line(fault)));
    entries.stream()
        .filter(entry -> !TOLD_BY_ROWS.contains(entry.action()))
        .forEach(entry -> lines.add(line(entry)));
    lines.sort(Comparator.comparing(HistoryLine::at).reversed());
    return new UnitHistory(
        List.copyOf(lines),
        rate("where unit_id = :id", Map.of("id", unit.id)),
        rate(
            "where unit_id in (select id from unit where kind_id = :kind)",
            Map.of("kind", unit.kind.id)),
        rate("", Map.of()));
  }

  /** Faults and sessions of the units that the condition picks. */
  private FaultRate rate(String where, Map<String, Object> values) {
    return new FaultRate(
        number("select count(*) from unit_fault " + where, values),
        number(
            "select coalesce(sum(case when voided then 0 else coalesce(sessions, 1) end), 0)"
                + " from unit_use "
                + where,
            values));
  }

  private long number(String sql, Map<String, Object> values) {
    var query = database.createNativeQuery(sql);
    values.forEach(query::setParameter);
    return ((Number) query.getSingleResult()).longValue();
  }

  private void addInspections(Long unitId, List<HistoryLine> lines) {
    List<Inspection> done = inspections.list("unitId", unitId);
    if (done.isEmpty()) {
      return;
    }
    Map<Long, List<InspectionAnswer>> bad =
        answers
            .list(
                "fine = false and inspectionId in ?1",
                done.stream().map(inspection -> inspection.id).toList())
            .stream()
            .collect(Collectors.groupingBy(answer -> answer.inspectionId));
    for (Inspection inspection : done) {
      String found =
          bad.getOrDefault(inspection.id, List.of()).stream()
              .map(answer -> answer.question)
              .collect(Collectors.joining(" "));
      lines.add(
          new HistoryLine(
              inspection.inspectedAt,
              null,
              "inspection",
              with(
                  inspection.passed ? "inspected, all fine" : "inspected, not fine: " + found,
                  inspection.note),
              inspection.doneBy,
              null));
    }
  }

  private static HistoryLine line(UnitUseRow use) {
    String what = use.useKind == UseKind.LOAN ? "on loan" : "in a treatment";
    String sessions = use.sessions == null ? "" : ", sessions done: " + use.sessions;
    return new HistoryLine(
        use.startsAt,
        use.endedAt,
        use.useKind.word(),
        use.voided ? what + ", entered by mistake and voided" : what + sessions,
        null,
        null);
  }

  private HistoryLine line(Wipe wipe) {
    return new HistoryLine(
        wipe.wipedAt,
        wipe.countsAt,
        "wipe",
        with(
            "wiped with "
                + products.name(wipe.product)
                + ", contact time "
                + wipe.contactMinutes
                + " min",
            wipe.note),
        wipe.doneBy,
        null);
  }

  private static HistoryLine line(SafetyTest test) {
    String next = test.nextDueOn == null ? "" : ", next due " + Days.full(test.nextDueOn);
    String certificate = test.certificate == null ? "" : ", certificate " + test.certificate;
    return new HistoryLine(
        test.testedOn.atTime(LocalTime.NOON).toInstant(ZoneOffset.UTC),
        null,
        "test",
        with("safety test " + (test.passed ? "passed" : "failed") + next + certificate, test.note),
        test.tester,
        null);
  }

  private static HistoryLine line(Charge charge) {
    return new HistoryLine(
        charge.begunAt == null ? charge.chargedAt : charge.begunAt,
        charge.begunAt == null ? null : charge.chargedAt,
        "charge",
        charge.chargedAt == null
            ? "on the charger"
            : charge.begunAt == null ? "entered as charged" : "charged",
        charge.doneBy,
        null);
  }

  private static HistoryLine line(UnitFault fault) {
    return new HistoryLine(
        fault.noticedAt,
        null,
        "fault",
        fault.faultKind.words() + ": " + fault.words,
        fault.toldBy,
        null);
  }

  private static HistoryLine line(TrailEntry entry) {
    String reason =
        entry.after() != null && entry.after().hasNonNull("reason")
            ? ": " + entry.after().get("reason").asText()
            : "";
    String part =
        entry.after() != null && entry.after().hasNonNull("part")
            ? ": " + entry.after().get("name").asText()
            : "";
    return new HistoryLine(
        entry.at(),
        null,
        entry.action().replace(' ', '-').toLowerCase(Locale.ROOT),
        entry.action() + reason + part,
        entry.by(),
        entry.lateReason());
  }

  private static String with(String words, String note) {
    return note == null ? words : words + ". " + note;
  }
}
