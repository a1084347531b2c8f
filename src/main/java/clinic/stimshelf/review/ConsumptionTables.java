package clinic.stimshelf.review;

import clinic.stimshelf.calc.consumption.Split;
import clinic.stimshelf.calc.consumption.Statement;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.program.Course;
import clinic.stimshelf.review.Consumption.Cell;
import clinic.stimshelf.review.ConsumptionView.Row;
import clinic.stimshelf.review.ConsumptionView.Table;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * The same total by therapist, template, pad type, lot and location; what cost most stands first.
 */
final class ConsumptionTables {
  /** So many rows are read; the rest is one line. */
  private static final int SHOWN = 15;

  private final Consumption.Names names;
  private final PeriodUse now;

  ConsumptionTables(Consumption.Names names, PeriodUse now) {
    this.names = names;
    this.now = now;
  }

  private record Label(String words, String small) {}

  List<Table> of(List<Cell> cells) {
    return List.of(
        new Table("therapist", "Therapist", rows(cells, this::therapist, true)),
        new Table("template", "Template", rows(cells, this::template, true)),
        new Table("pads", "Pad type", rows(cells, this::pads, true)),
        new Table("lot", "Lot", rows(cells, this::lot, false)),
        new Table("location", "Location", rows(cells, this::location, true)));
  }

  private Label therapist(Cell cell) {
    return cell.course() == null
        ? new Label("no program known", null)
        : new Label(names.staff().getOrDefault(cell.course().therapistId(), "unknown"), null);
  }

  private Label template(Cell cell) {
    if (cell.course() == null) {
      return new Label("no program known", null);
    }
    return new Label(
        cell.course().template() == null ? "written without one" : cell.course().template(), null);
  }

  private Label pads(Cell cell) {
    PadTypeView type = names.pads().get(cell.key().padCode());
    return new Label(type == null ? cell.key().padCode() : type.name(), cell.key().padCode());
  }

  private Label lot(Cell cell) {
    return cell.key().lotId() == null
        ? new Label("none given in the period", null)
        : new Label(cell.key().lot(), cell.key().padCode());
  }

  private Label location(Cell cell) {
    return new Label(names.locations().getOrDefault(cell.key().locationId(), "unknown"), null);
  }

  private List<Row> rows(List<Cell> cells, Function<Cell, Label> by, boolean sessions) {
    Map<Label, List<Cell>> groups =
        cells.stream().collect(Collectors.groupingBy(by, LinkedHashMap::new, Collectors.toList()));
    record Group(Label label, List<Cell> cells, Split split) {
      BigDecimal more() {
        return split.now().cost().subtract(split.before().cost());
      }
    }
    List<Group> sorted = new ArrayList<>();
    groups.forEach(
        (label, members) ->
            sorted.add(
                new Group(
                    label,
                    members,
                    members.stream().map(Cell::split).reduce(Split.none(), Split::plus))));
    sorted.sort(
        Comparator.comparing(Group::more).reversed().thenComparing(one -> one.label().words()));
    if (sorted.size() > SHOWN + 1) {
      List<Group> rest = sorted.subList(SHOWN, sorted.size());
      Group all =
          new Group(
              new Label("all " + rest.size() + " others", null),
              rest.stream().flatMap(one -> one.cells().stream()).toList(),
              rest.stream().map(Group::split).reduce(Split.none(), Split::plus));
      rest.clear();
      sorted.add(all);
    }
    List<Statement> statements = Statement.rows(sorted.stream().map(Group::split).toList());
    List<Row> rows = new ArrayList<>();
    for (int i = 0; i < sorted.size(); i++) {
      Group group = sorted.get(i);
      Integer done = sessions ? done(group.cells()) : null;
      rows.add(
          new Row(
              group.label().words(),
              group.label().small(),
              done,
              done == null ? null : Consumption.per100(group.split().now().packs(), done),
              statements.get(i)));
    }
    return rows;
  }

  /** Sessions done by the programs of these slices, each once. */
  private int done(List<Cell> cells) {
    return cells.stream()
        .map(cell -> now.courses().get(cell.key().programId()))
        .filter(Objects::nonNull)
        .distinct()
        .mapToInt(Course::done)
        .sum();
  }
}
