package clinic.stimshelf.review;

import java.math.BigDecimal;
import java.util.Map;

/**
 * The two prices of a pack: by the list as it stood when the period began, and as it was paid. A
 * lot whose price nobody wrote down counts as paid by the list.
 */
record Prices(Map<String, BigDecimal> list, Map<Long, BigDecimal> paid) {

  BigDecimal planned(String padCode) {
    return list.getOrDefault(padCode, BigDecimal.ZERO);
  }

  BigDecimal paid(String padCode, Long lotId) {
    BigDecimal price = lotId == null ? null : paid.get(lotId);
    return price == null ? planned(padCode) : price;
  }
}
