package clinic.stimshelf.pads;

import com.fasterxml.jackson.annotation.JsonFormat;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

/**
 * An order and what of it is still to come.
 *
 * @param dueOn the day the supplier named, or the one that past deliveries let expect
 * @param lateDays days past that while something is still to come, else 0
 * @param mailedTo where it was sent by e-mail, or {@code null}
 * @param askedAt when somebody last asked the supplier after it, or {@code null}
 */
public record OrderView(
    String id,
    String location,
    String supplier,
    LocalDate orderedOn,
    LocalDate expectedOn,
    OrderState state,
    String note,
    String by,
    LocalDate dueOn,
    int lateDays,
    String mailedTo,
    Instant mailedAt,
    Instant askedAt,
    List<Line> lines) {

  public boolean late() {
    return lateDays > 0;
  }

  /** The same for somebody whom costs are not shown to. */
  OrderView withoutPrices() {
    return new OrderView(
        id,
        location,
        supplier,
        orderedOn,
        expectedOn,
        state,
        note,
        by,
        dueOn,
        lateDays,
        mailedTo,
        mailedAt,
        askedAt,
        lines.stream()
            .map(
                line ->
                    new Line(
                        line.code(),
                        line.packs(),
                        line.delivered(),
                        line.cancelled(),
                        line.onOrder(),
                        null))
            .toList());
  }

  /** One pad type: on order is what was ordered, less delivered, less cancelled. */
  public record Line(
      String code,
      int packs,
      int delivered,
      int cancelled,
      int onOrder,
      @JsonFormat(shape = JsonFormat.Shape.STRING) BigDecimal price) {}
}
