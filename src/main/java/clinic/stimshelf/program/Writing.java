package clinic.stimshelf.program;

import java.time.DayOfWeek;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/** Puts a program's content into the rows of a version, and reads it from there. */
final class Writing {

  private Writing() {}

  static void write(Content content, Map<String, PadFact> padTypes, ProgramVersion version) {
    version.template = content.template();
    content.dose().writeTo(version);
    version.weekdays =
        content.weekdays().isEmpty()
            ? null
            : content.weekdays().stream().map(DayOfWeek::name).collect(Collectors.joining(","));
    version.startsOn = content.startsOn();
    version.dueKind = content.dueKind();
    version.settingText = blankToNull(content.setting());
    version.cautions = blankToNull(content.cautions());
    version.instructions = blankToNull(content.instructions());
    int place = 0;
    for (Placement placement : content.placements()) {
      PlacementRow row = new PlacementRow();
      row.version = version;
      row.place = place++;
      row.muscle = placement.muscle();
      row.side = placement.side();
      row.channels = placement.channels();
      row.padsWhere = blankToNull(placement.where());
      version.placements.add(row);
    }
    place = 0;
    for (PadLine line : content.pads()) {
      PadLineRow row = new PadLineRow();
      row.version = version;
      row.place = place++;
      row.padCode = line.code();
      row.perSession = line.perSession();
      row.take(padTypes.get(line.code()));
      version.pads.add(row);
    }
  }

  static Content read(ProgramVersion version) {
    return new Content(
        version.template,
        DoseValues.of(version),
        weekdays(version.weekdays),
        version.startsOn,
        version.placements.stream().map(PlacementRow::view).toList(),
        version.pads.stream().map(PadLineRow::view).toList(),
        version.dueKind,
        version.settingText,
        version.cautions,
        version.instructions);
  }

  private static Set<DayOfWeek> weekdays(String names) {
    return names == null
        ? Set.of()
        : Arrays.stream(names.split(",", -1))
            .map(DayOfWeek::valueOf)
            .collect(Collectors.toCollection(() -> EnumSet.noneOf(DayOfWeek.class)));
  }

  static String blankToNull(String text) {
    return text == null || text.isBlank() ? null : text.strip();
  }
}
