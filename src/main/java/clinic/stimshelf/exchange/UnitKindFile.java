package clinic.stimshelf.exchange;

import clinic.stimshelf.shelf.KindView;
import clinic.stimshelf.shelf.OutputScale;
import clinic.stimshelf.shelf.Part;
import clinic.stimshelf.shelf.ShelfEntries;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Kinds of unit and what their kits hold. */
@ApplicationScoped
class UnitKindFile implements FileFormat {
  private static final Pattern PART =
      Pattern.compile("([a-z-]+)\\s*:\\s*(.+?)(\\s+\\(may be owed\\))?");

  private static final Column<String> CODE = Column.code("code").required();
  private static final Column<String> NAME = Column.text("name", 120).required();
  private static final Column<Integer> CHANNELS = Column.whole("channels", 1, 16).required();
  private static final Column<String> CONNECTOR = Column.code("connector").required();
  private static final Column<OutputScale> OUTPUT =
      Column.word("output", OutputScale.class).required();
  private static final Column<Integer> CHARGE_DAYS = Column.whole("charge_days", 1, 365);
  private static final Column<String> CELL_TYPE = Column.text("cell_type", 80);
  private static final Column<BigDecimal> PRICE = Column.number("price", "0", "99999999");
  private static final Column<Boolean> LENDS_OUT = Column.yesNo("lends_out");
  private static final Column<List<KindView.PartLine>> CONTENTS =
      Column.list(
          "contents",
          "a part's kind and name, such as lead-set: Lead wires, 2 channels or bag: Bag (may be owed)",
          UnitKindFile::part);

  @Inject ShelfEntries entries;

  @Override
  public String what() {
    return "unit-kinds";
  }

  @Override
  public String title() {
    return "Kinds of unit with channels, connector and what their kits hold";
  }

  @Override
  public int order() {
    return 100;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(
        CODE,
        NAME,
        CHANNELS,
        CONNECTOR,
        OUTPUT,
        CHARGE_DAYS,
        CELL_TYPE,
        PRICE,
        LENDS_OUT,
        CONTENTS);
  }

  @Override
  public String name(Row row) {
    return row.text(CODE);
  }

  @Override
  public String taken() {
    return "select code from unit_kind";
  }

  @Override
  public void enter(Row row) {
    entries.enterKind(
        new KindView(
            null,
            row.get(CODE),
            row.get(NAME),
            row.get(CHANNELS),
            row.get(CONNECTOR),
            row.get(OUTPUT),
            row.get(CHARGE_DAYS),
            row.get(CELL_TYPE),
            row.get(PRICE),
            row.or(LENDS_OUT, true),
            row.or(CONTENTS, List.of())));
  }

  @Override
  public String export() {
    return "select k.code, k.name, k.channels, k.connector, lower(k.output_scale) as output,"
        + " k.charge_days, k.cell_type, k.price, k.lends_out,"
        + " (select string_agg(lower(replace(p.part, '_', '-')) || ': ' || p.name"
        + " || case when p.essential then '' else ' (may be owed)' end, ' | '"
        + " order by p.position, p.id) from kind_part p where p.kind_id = k.id) as contents"
        + " from unit_kind k order by k.code";
  }

  private static KindView.PartLine part(String text) {
    Matcher part = PART.matcher(text);
    if (!part.matches()) {
      throw new IllegalArgumentException(text);
    }
    Part kind = Part.valueOf(part.group(1).toUpperCase(Locale.ROOT).replace('-', '_'));
    return new KindView.PartLine(kind, part.group(2), part.group(3) == null);
  }
}
