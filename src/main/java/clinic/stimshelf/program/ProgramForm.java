package clinic.stimshelf.program;

import clinic.stimshelf.people.Side;
import clinic.stimshelf.web.Form;
import java.time.DayOfWeek;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/** Reads what a therapist typed, and fills the form from what stands. */
final class ProgramForm {
  /** Endings of the fields of the two placements and of the pad lines. */
  private static final List<String> PLACEMENTS = List.of("", "2");

  private static final List<String> PADS = List.of("", "2", "3");

  private ProgramForm() {}

  static Content read(Form form) {
    Map<DoseField, Object> dose = new EnumMap<>(DoseField.class);
    for (DoseField field : DoseField.all()) {
      dose.put(field, form.read(field.key(), field::parse, value -> true, field.refusal()));
    }
    Set<DayOfWeek> weekdays = EnumSet.noneOf(DayOfWeek.class);
    for (String name : form.values("weekdays")) {
      if (!name.isEmpty()) {
        weekdays.add(Weekdays.of(name));
      }
    }
    if (!weekdays.isEmpty()) {
      dose.put(DoseField.DAYS_PER_WEEK, weekdays.size());
    }
    return new Content(
        form.has("template") ? form.value("template") : null,
        DoseValues.of(dose),
        weekdays,
        form.optionalDay("startsOn", "The start day"),
        placements(form),
        pads(form),
        form.read("dueKind", DueWords::kind, kind -> true, "Choose one of the three due days."),
        form.optionalText("setting", "The setting", 500),
        form.optionalText("cautions", "The cautions", 2000),
        form.optionalText("instructions", "The instructions", 2000));
  }

  static Form fill(Form form, Content content) {
    form.prefill("template", content.template());
    content.dose().asMap().forEach((field, value) -> form.prefill(field.key(), field.typed(value)));
    form.prefill("startsOn", content.startsOn());
    for (int i = 0; i < content.placements().size() && i < PLACEMENTS.size(); i++) {
      Placement one = content.placements().get(i);
      String end = PLACEMENTS.get(i);
      form.prefill("muscle" + end, one.muscle())
          .prefill("side" + end, one.side() == null ? null : one.side().word())
          .prefill("channels" + end, one.channels() == 0 ? null : one.channels())
          .prefill("where" + end, one.where());
    }
    for (int i = 0; i < content.pads().size() && i < PADS.size(); i++) {
      form.prefill("pads" + PADS.get(i), content.pads().get(i).code())
          .prefill("perSession" + PADS.get(i), content.pads().get(i).perSession());
    }
    form.prefill("dueKind", content.dueKind() == null ? null : DueWords.word(content.dueKind()));
    return form.prefill("setting", content.setting())
        .prefill("cautions", content.cautions())
        .prefill("instructions", content.instructions());
  }

  /** Weekdays cannot be filled in one by one, so the page asks here. */
  static List<String> weekdays(Content content) {
    return content.weekdays().stream().map(day -> day.name().toLowerCase(Locale.ROOT)).toList();
  }

  private static List<Placement> placements(Form form) {
    List<Placement> placements = new ArrayList<>();
    for (String end : PLACEMENTS) {
      boolean first = end.isEmpty();
      if (form.has("muscle" + end) || (first && (form.has("side") || form.has("channels")))) {
        Integer channels = form.optionalWhole("channels" + end, "Channels", 1, 8);
        placements.add(
            new Placement(
                form.has("muscle" + end) ? form.value("muscle" + end) : null,
                form.read("side" + end, Side::of, side -> true, "Choose left, right or both."),
                channels == null ? 0 : channels,
                form.optionalText("where" + end, "The place of the pads", 500)));
      }
    }
    return placements;
  }

  private static List<PadLine> pads(Form form) {
    List<PadLine> pads = new ArrayList<>();
    for (String end : PADS) {
      if (form.has("pads" + end)) {
        Integer perSession = form.optionalWhole("perSession" + end, "Pads at once", 1, 32);
        pads.add(new PadLine(form.value("pads" + end), perSession == null ? 0 : perSession));
      }
    }
    return pads;
  }
}
