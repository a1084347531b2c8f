package clinic.stimshelf.codes.udi;

import java.util.List;

/**
 * Reads the device label of ICCBBA (ISBT 128) into a draft: product, serial number, dates, lot.
 * Such labels belong to products of human origin, not to stimulators, so no check characters of
 * theirs are computed.
 */
final class IccbbaReading {

  private record Part(String mark, String key, int length) {}

  private static final List<Part> PARTS =
      List.of(
          new Part("=/", "=/", 16),
          new Part("=)", "=)", 10),
          new Part("=,", "=,", 6),
          new Part("=>", "=>", 6),
          new Part("=}", "=}", 6),
          new Part("&,1", "&,1", 18),
          new Part("&)", "&)", 10),
          // Last, because every other mark begins with the same sign.
          new Part("=", "DIN", 15));

  private final Draft draft;

  IccbbaReading(Draft draft) {
    this.draft = draft;
    draft.issuer = Issuer.ICCBBA;
  }

  void read(String text) {
    int at = 0;
    while (at < text.length()) {
      int from = at;
      Part part =
          PARTS.stream().filter(p -> text.startsWith(p.mark(), from)).findFirst().orElse(null);
      int start = part == null ? at : at + part.mark().length();
      if (part == null || start + part.length() > text.length()) {
        draft.refuse(
            "'%s' is no part of a label that we know, or it is cut short: scan again.",
            text.substring(at));
        return;
      }
      at = start + part.length();
      accept(part.key(), text.substring(start, at));
    }
  }

  private void accept(String key, String value) {
    draft.elements.putIfAbsent(key, value);
    switch (key) {
      case "=/", "=)" -> draft.deviceIdentifier = value;
      case "=," -> draft.serial = value;
      case "=>" -> draft.expiresOn = draft.date("expiry date", value, LabelDates.cyyjjj(value));
      case "=}" -> draft.madeOn = draft.date("production date", value, LabelDates.cyyjjj(value));
      case "&,1", "&)" -> draft.lot = value;
      default -> {}
    }
  }
}
