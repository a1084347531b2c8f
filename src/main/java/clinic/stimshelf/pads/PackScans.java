package clinic.stimshelf.pads;

import clinic.stimshelf.codes.scanner.ScannerText;
import clinic.stimshelf.codes.udi.Udi;
import clinic.stimshelf.codes.udi.UdiReader;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;

/** Tells from a scanned label, or a typed lot number, which pads it is on. */
@ApplicationScoped
public class PackScans {
  @Inject PadLots lots;
  @Inject Balances balances;
  @Inject EntityManager em;
  @Inject Clock clock;

  /** Reads a scan or a typed lot number. */
  @Transactional
  public ScannedPack read(String scanned) {
    Udi udi = udi(scanned);
    if (!udi.usable()) {
      String typed = ScannerText.plain(scanned);
      return known(null, typed, new ScannedPack(null, null, typed, null, null, null, List.of()));
    }
    PadType type = typeOf(udi.deviceIdentifier());
    String code = type == null ? null : type.code;
    ScannedPack label =
        new ScannedPack(
            code, null, udi.lot(), udi.expiresOn(), udi.count(), udi.raw(), udi.problems());
    if (udi.lot() == null) {
      return label;
    }
    return known(code, udi.lot(), label);
  }

  /** Where the label says no more than a lot number, that may still say which pads these are. */
  private ScannedPack known(String code, String lot, ScannedPack label) {
    if (lot.isEmpty()) {
      return label;
    }
    List<LotFactsView> found =
        lots.byNumber(lot).stream().filter(one -> code == null || one.code().equals(code)).toList();
    if (found.size() != 1) {
      List<String> problems = new ArrayList<>(label.problems());
      if (found.size() > 1) {
        problems.add("Several pad types have a lot " + lot + ": choose the type.");
      }
      return new ScannedPack(
          code, null, label.lot(), label.expiresOn(), label.count(), label.udi(), problems);
    }
    LotFactsView one = found.get(0);
    return new ScannedPack(
        one.code(),
        one.id(),
        one.number(),
        one.expiresOn(),
        label.count(),
        label.udi(),
        label.problems());
  }

  /** Remembers the product number of a label that came with packs of a type. */
  void learn(PadType type, String scanned) {
    if (scanned == null) {
      return;
    }
    Udi udi = udi(scanned);
    if (udi.usable() && udi.deviceIdentifier().length() <= 60) {
      balances.holdType(type.id);
      if (typeOf(udi.deviceIdentifier()) == null) {
        PadIdentifier row = new PadIdentifier();
        row.deviceIdentifier = udi.deviceIdentifier();
        row.padTypeId = type.id;
        em.persist(row);
      }
    }
  }

  private Udi udi(String scanned) {
    return UdiReader.of(clock.instant().atZone(ZoneOffset.UTC).getYear()).read(scanned);
  }

  private PadType typeOf(String deviceIdentifier) {
    return em.createQuery(
            "select t from PadType t, PadIdentifier i where i.padTypeId = t.id and"
                + " i.deviceIdentifier = :number",
            PadType.class)
        .setParameter("number", deviceIdentifier)
        .getResultStream()
        .findFirst()
        .orElse(null);
  }
}
