package clinic.stimshelf.loans;

import clinic.stimshelf.codes.scanner.ScannerText;
import clinic.stimshelf.codes.udi.Udi;
import clinic.stimshelf.codes.udi.UdiReader;
import clinic.stimshelf.pads.LotView;
import clinic.stimshelf.pads.PadStock;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Optional;

/** Which lot a scanned or typed pack is of, among the pads that a program uses. */
@ApplicationScoped
class PackScan {
  @Inject PadStock stock;
  @Inject Clock clock;

  Optional<LotView> find(String scanned, Collection<String> codes, Long locationId) {
    Udi udi =
        UdiReader.of(LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC).getYear()).read(scanned);
    String lot = udi.usable() && udi.lot() != null ? udi.lot() : ScannerText.plain(scanned);
    return codes.stream()
        .flatMap(code -> stock.lotsAt(code, locationId).stream())
        .filter(one -> one.number().equalsIgnoreCase(lot))
        .findFirst();
  }
}
