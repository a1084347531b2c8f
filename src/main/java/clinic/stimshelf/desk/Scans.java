package clinic.stimshelf.desk;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.codes.Scan;
import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.codes.udi.Udi;
import clinic.stimshelf.codes.udi.UdiReader;
import clinic.stimshelf.desk.ScanAnswer.Match;
import clinic.stimshelf.desk.ScanAnswer.UdiFields;
import clinic.stimshelf.shelf.UnitView;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Tells what a scanned or typed text is and what can be done with it now. The one place where a
 * code is looked up in all rooms.
 */
@ApplicationScoped
public class Scans {
  /** Longer texts are no code and no name. */
  static final int LONGEST = 400;

  @Inject ScannedUnits units;
  @Inject ScannedPeople people;
  @Inject ScannedPads pads;
  @Inject SignedIn signedIn;
  @Inject Clock clock;

  /** Never throws because of the text; what is not found says what to try. */
  public ScanAnswer look(String typed) {
    String raw = typed == null ? "" : typed;
    if (raw.length() > LONGEST) {
      return unknown(
          List.of("That is longer than any code or name. Scan one code at a time."), null);
    }
    UdiReader reader = UdiReader.of(clock.instant().atZone(ZoneOffset.UTC).getYear());
    Scan scan = Scan.of(raw, reader);
    if (scan instanceof Scan.OwnTag own) {
      return ownTag(own.tag());
    }
    if (scan instanceof Scan.MisreadTag misread) {
      return unknown(List.of(misread.problem()), null);
    }
    if (scan instanceof Scan.DeviceLabel label) {
      return label(label.udi());
    }
    if (scan instanceof Scan.Words words) {
      return words(words);
    }
    return unknown(
        List.of("Nothing was read. Scan a tag or a pack, or type a name or chart number."), null);
  }

  private ScanAnswer ownTag(Tag tag) {
    Optional<UnitView> unit = units.find(tag.text());
    if (unit.isPresent()) {
      return units.answer(unit.get(), tag.text());
    }
    return unknown(
        List.of(
            "“"
                + tag
                + "” is one of our tags, but nothing at your locations bears it. Look whether it"
                + " belongs to another location, or was retired before this program was used."),
        null);
  }

  private ScanAnswer label(Udi udi) {
    Optional<UnitView> unit =
        udi.serial() == null ? Optional.empty() : units.findBySerial(udi.serial());
    if (unit.isPresent()) {
      ScanAnswer answer = units.answer(unit.get(), unit.get().tag());
      return new ScanAnswer(
          answer.kind(),
          UdiFields.of(udi),
          answer.matches(),
          answer.actions(),
          udi.problems(),
          answer.straightTo());
    }
    return pads.answer(udi);
  }

  private ScanAnswer words(Scan.Words words) {
    if (words.tag() != null) {
      Optional<UnitView> unit = units.find(words.tag().text());
      if (unit.isPresent()) {
        return units.answer(unit.get(), words.tag().text());
      }
    }
    Optional<ScanAnswer> chart = people.byChart(words.text());
    if (chart.isPresent()) {
      return chart.get();
    }
    Optional<ScanAnswer> order = pads.order(words.text());
    if (order.isPresent()) {
      return order.get();
    }
    ScanAnswer lot = pads.lotNumber(words.text());
    List<Match> found = new ArrayList<>(people.named(words.text()));
    if (found.isEmpty() && lot != null) {
      return lot;
    }
    if (!found.isEmpty()) {
      List<String> problems =
          found.size() < ScannedPeople.SHOWN
              ? List.of()
              : List.of("Only the first " + found.size() + " are shown. Type more of the name.");
      return new ScanAnswer(ScanKind.PATIENT, null, found, List.of(), problems, null);
    }
    if (words.label() != null) {
      return pads.answer(words.label());
    }
    return unknown(
        List.of(
            "Nothing here goes by “"
                + words.text()
                + "”. Try the tag on the unit or its bag, the chart number, the beginning of a"
                + " name, or a birth date such as 3/14/1980."),
        null);
  }

  private static ScanAnswer unknown(List<String> problems, Udi udi) {
    return new ScanAnswer(
        ScanKind.UNKNOWN, UdiFields.of(udi), List.of(), List.of(), problems, null);
  }
}
