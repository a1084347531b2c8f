package clinic.stimshelf.appointments;

import clinic.stimshelf.appointments.AppointmentApi.PackEntry;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.pads.PackLine;
import clinic.stimshelf.pads.PadCatalog;
import clinic.stimshelf.pads.PadStock;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Ids;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Refusal;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;

/** Reads which packs a treatment used: a lot, or a type, of which the first to expire is taken. */
@ApplicationScoped
class PacksUsed {
  @Inject PadStock stock;
  @Inject PadCatalog catalog;
  @Inject Locations locations;

  List<PackLine> of(Long locationId, List<PackEntry> entries) {
    List<PackLine> lines = new ArrayList<>();
    if (entries == null) {
      return lines;
    }
    for (PackEntry entry : entries) {
      if (entry.packs() < 1 || entry.packs() > 50) {
        throw new Refusal("packs", "Packs: a whole number from 1 to 50.");
      }
      if (entry.lotId() != null) {
        lines.add(new PackLine(Ids.of(entry.lotId(), "lot"), entry.packs(), null));
      } else {
        List<PackLine> first =
            stock.propose(
                catalog.byCode(entry.code()).code(),
                locationId,
                entry.packs(),
                locations.today(locationId));
        if (first.stream().mapToInt(PackLine::packs).sum() < entry.packs()) {
          throw new Refusal(
              "packs",
              "The cupboard has fewer usable packs of " + entry.code() + " than that.",
              "Count them, or enter the appointment without.");
        }
        lines.addAll(first);
      }
    }
    return lines;
  }

  /** One type and a number, as the form of an appointment has them. */
  List<PackLine> of(Long locationId, Form form) {
    Integer packs = form.optionalWhole("packs", "The packs", 1, 50);
    if (!form.has("padCode")) {
      return List.of();
    }
    form.throwIfWrong();
    return of(
        locationId, List.of(new PackEntry(null, form.value("padCode"), packs == null ? 1 : packs)));
  }

  List<Option> choices() {
    return catalog.active().stream().map(type -> new Option(type.code(), type.name())).toList();
  }
}
