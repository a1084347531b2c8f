package clinic.stimshelf.desk;

import clinic.stimshelf.codes.Scan;
import clinic.stimshelf.codes.Tag;
import clinic.stimshelf.codes.labels.Label;
import clinic.stimshelf.codes.labels.LabelDrawing;
import clinic.stimshelf.codes.labels.LabelSize;
import clinic.stimshelf.codes.labels.SymbolKind;
import clinic.stimshelf.codes.scanner.Heard;
import clinic.stimshelf.codes.scanner.Separators;
import clinic.stimshelf.codes.udi.Udi;
import clinic.stimshelf.codes.udi.UdiReader;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.List;
import org.jboss.resteasy.reactive.RestForm;

/** What a scanner sends, with labels to try it on. Nothing scanned here is looked up or kept. */
@Path("/scanner")
@Produces(MediaType.TEXT_HTML)
@Blocking
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class ScannerPages {
  /**
   * A product number that GS1 keeps for examples, a lot that needs a separator, a serial number.
   */
  private static final String EXAMPLE = "]d201095060001178431728022910LOT-7\u001D21S-12";

  private static final String TAG = Tag.next(Tag.Kind.UNIT, 999_900).text();
  private static final LabelSize SIZE = new LabelSize(57, 32);
  private static final int LONGEST = 1_000;

  @Inject Clock clock;

  /** A label to scan, and what must come of it. */
  public record Try(String name, String svg) {}

  /**
   * What came of a scan.
   *
   * @param words what it is, in a sentence
   * @param good whether it is what the label holds
   * @param advice what to change on the scanner, or {@code null}
   */
  public record Result(Heard heard, String words, boolean good, String advice, Udi udi) {}

  @CheckedTemplate(basePath = "desk", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ScannerPage(List<Try> labels, Result result) implements TemplateInstance {}

  @GET
  public TemplateInstance blank() {
    return new ScannerPage(labels(), null);
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public TemplateInstance heard(@RestForm String code) {
    String raw = code == null ? "" : code;
    return new ScannerPage(
        labels(), result(raw.length() > LONGEST ? raw.substring(0, LONGEST) : raw));
  }

  private UdiReader reader() {
    return UdiReader.of(clock.instant().atZone(ZoneOffset.UTC).getYear());
  }

  private List<Try> labels() {
    Udi example = reader().read(EXAMPLE);
    return List.of(
        new Try("1: a tag of ours, bars", drawn(Label.of(Tag.of(TAG), SymbolKind.CODE_128))),
        new Try("2: a tag of ours, square", drawn(Label.of(Tag.of(TAG), SymbolKind.DATA_MATRIX))),
        new Try("3: a pack, square", drawn(Label.of(example, SymbolKind.DATA_MATRIX))));
  }

  private static String drawn(Label label) {
    return LabelDrawing.svg(label, SIZE, LabelDrawing.widestX(label, SIZE).orElseThrow());
  }

  private Result result(String raw) {
    Heard heard = Heard.of(raw, Separators.DEFAULT);
    Scan scan = Scan.of(raw, reader());
    if (scan instanceof Scan.OwnTag own) {
      return new Result(heard, "One of our tags: " + own.tag() + ".", true, null, null);
    }
    if (scan instanceof Scan.MisreadTag misread) {
      return new Result(
          heard,
          misread.problem(),
          false,
          "Set the scanner’s keyboard to the layout of this computer, and Caps Lock off.",
          null);
    }
    if (scan instanceof Scan.DeviceLabel label) {
      return label(heard, label.udi());
    }
    return scan instanceof Scan.Words
        ? new Result(
            heard,
            "Neither a tag of ours nor a device’s label; it would be looked up as words.",
            false,
            "If it was label 1, 2 or 3, set the scanner back to its factory settings and let it"
                + " send Enter after each scan.",
            null)
        : new Result(heard, "Nothing came.", false, "Scan with the cursor in the field.", null);
  }

  private Result label(Heard heard, Udi udi) {
    Udi example = reader().read(EXAMPLE);
    boolean ours = example.deviceIdentifier().equals(udi.deviceIdentifier());
    boolean whole = example.lot().equals(udi.lot()) && example.serial().equals(udi.serial());
    if (ours && !whole) {
      return new Result(
          heard,
          "The pack’s label, but lot and serial number ran together.",
          false,
          "The separator after the lot was lost: set the scanner to send ~ or <GS> for the group"
              + " separator (character 29, also called FNC1).",
          udi);
    }
    return new Result(
        heard,
        udi.usable() ? "A device’s label, read whole." : String.join(" ", udi.problems()),
        udi.usable(),
        heard.symbology().isEmpty()
            ? "It works. Safer still: let the scanner send the symbology identifier (AIM ID) first."
            : null,
        udi);
  }
}
