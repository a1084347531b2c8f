package clinic.stimshelf.pads;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.web.CsvSheet;
import clinic.stimshelf.web.Days;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

/** An order as a supplier reads it. */
final class OrderText {
  private OrderText() {}

  /** One line for each pad type. */
  static byte[] csv(OrderView order, Map<String, String> names, boolean prices) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (CsvSheet csv = new CsvSheet(out)) {
      csv.line(
          List.of("order", "ordered_on", "location", "supplier", "code", "name", "packs", "price"));
      for (OrderView.Line line : order.lines()) {
        csv.line(
            Arrays.asList(
                order.id(),
                order.orderedOn(),
                order.location(),
                order.supplier(),
                line.code(),
                names.get(line.code()),
                line.packs(),
                prices ? line.price() : null));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  static String subject(OrderView order, LocationView place) {
    return "Order " + order.id() + " from " + place.name();
  }

  static String mail(OrderView order, LocationView place, Map<String, String> names) {
    StringBuilder text = new StringBuilder();
    text.append("Order ")
        .append(order.id())
        .append(" of ")
        .append(Days.full(order.orderedOn()))
        .append("\nfor ")
        .append(place.name())
        .append('\n');
    if (place.address() != null) {
      text.append(place.address()).append('\n');
    }
    if (place.phone() != null) {
      text.append(place.phone()).append('\n');
    }
    text.append('\n');
    for (OrderView.Line line : order.lines()) {
      text.append(line.packs())
          .append(line.packs() == 1 ? " pack   " : " packs  ")
          .append(line.code())
          .append("  ")
          .append(names.getOrDefault(line.code(), ""))
          .append('\n');
    }
    if (order.expectedOn() != null) {
      text.append("\nWished by ").append(Days.full(order.expectedOn())).append(".\n");
    }
    return text.append("\nPlease confirm the day of delivery.\n").toString();
  }
}
