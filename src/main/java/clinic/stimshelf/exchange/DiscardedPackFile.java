package clinic.stimshelf.exchange;

import clinic.stimshelf.pads.MovementReason;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;

/** Packs that left without serving anybody, or in an appointment. */
@ApplicationScoped
class DiscardedPackFile extends PackFile {
  private static final Column<String> WHY =
      Column.word("why", List.of("expired", "discarded", "appointment")).required();

  @Override
  public String what() {
    return "packs-gone";
  }

  @Override
  public String title() {
    return "Packs expired, thrown away, missing or used in appointments";
  }

  @Override
  public int order() {
    return 230;
  }

  @Override
  public List<Column<?>> columns() {
    return List.of(REF, LOCATION, CODE, LOT, PACKS, WHY, HAPPENED_AT, NOTE);
  }

  @Override
  String lines() {
    return "(m.reason in ('EXPIRED', 'DISCARDED', 'APPOINTMENT')"
        + " or (m.reason in ('COUNT_DIFFERENCE', 'TRANSFER') and m.packs < 0))";
  }

  @Override
  MovementReason reason(Row row) {
    return switch (row.get(WHY)) {
      case "expired" -> MovementReason.EXPIRED;
      case "appointment" -> MovementReason.APPOINTMENT;
      default -> MovementReason.DISCARDED;
    };
  }

  @Override
  String moreExport() {
    return ", case when m.reason in ('EXPIRED', 'APPOINTMENT') then lower(m.reason)"
        + " else 'discarded' end as why";
  }
}
