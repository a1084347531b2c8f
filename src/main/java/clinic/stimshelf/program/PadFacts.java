package clinic.stimshelf.program;

import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadShape;
import clinic.stimshelf.pads.PadTypeView;
import clinic.stimshelf.pads.PadWear;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The pad types as programs see them. */
@ApplicationScoped
class PadFacts {
  @Inject PadCatalog catalog;
  @Inject PadWear wear;

  /** The pad types in use, by code, as their makers rate them. */
  Map<String, PadFact> byCode() {
    return byCode(Map.of());
  }

  /**
   * The same with the life that a location plans with: its own experience where there is enough.
   */
  Map<String, PadFact> planned(Long locationId) {
    return byCode(wear.plannedUses(locationId));
  }

  private Map<String, PadFact> byCode(Map<String, Integer> uses) {
    Map<String, PadFact> facts = new LinkedHashMap<>();
    for (PadTypeView type : catalog.active()) {
      if (!type.wears()) {
        continue;
      }
      facts.put(
          type.code(),
          new PadFact(
              type.code(),
              type.name(),
              type.padsPerPack(),
              uses.getOrDefault(type.code(), type.ratedUses()),
              type.openDays(),
              areaCm2(type)));
    }
    return facts;
  }

  /** The pad types of a version as it was written; what is unknown there is as it is now. */
  Map<String, PadFact> asWritten(ProgramVersion version) {
    Map<String, PadFact> now = byCode();
    Map<String, PadFact> facts = new LinkedHashMap<>(now);
    for (PadLineRow line : version.pads) {
      PadFact today = now.get(line.padCode);
      if (line.padsPerPack != null && line.usesPerSet != null && line.openDays != null) {
        facts.put(
            line.padCode,
            new PadFact(
                line.padCode,
                today == null ? line.padCode : today.name(),
                line.padsPerPack,
                line.usesPerSet,
                line.openDays,
                today == null ? null : today.areaCm2()));
      }
    }
    return facts;
  }

  List<PadFact> offered() {
    return List.copyOf(byCode().values());
  }

  private static BigDecimal areaCm2(PadTypeView type) {
    BigDecimal box = BigDecimal.valueOf((long) type.widthMm() * type.heightMm()).movePointLeft(2);
    return type.shape() == PadShape.ROUND
        ? box.multiply(BigDecimal.valueOf(Math.PI / 4), MathContext.DECIMAL32)
        : box;
  }
}
