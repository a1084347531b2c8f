package clinic.stimshelf.pads;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What will expire unused at the present pace, and who could use it before. */
@ApplicationScoped
public class Expiry {
  @Inject Reorders reorders;
  @Inject Locations locations;

  /**
   * Packs of a lot that will probably not be used.
   *
   * @param elsewhere locations that would use some of them in time, the most first
   */
  public record Unused(
      String code,
      String name,
      String location,
      String locationName,
      String lot,
      LocalDate expiresOn,
      int packs,
      List<Use> elsewhere) {}

  /** Packs that a location would use before they expire. */
  public record Use(String location, String locationName, int packs) {}

  /** Packs past their expiry that still lie in a cupboard. */
  public record Past(String code, String name, String locationName, int packs) {}

  /** What should be used, moved or thrown away. */
  public record View(List<Unused> unused, List<Past> past) {}

  /** Over the locations, the first to expire first. */
  @Transactional
  public View at(Collection<Long> locationIds) {
    Map<LocationView, List<Reorders.Both>> all = new LinkedHashMap<>();
    locationIds.forEach(place -> all.put(locations.byId(place), reorders.all(place)));
    List<Unused> unused = new ArrayList<>();
    List<Past> past = new ArrayList<>();
    all.forEach(
        (place, answers) ->
            answers.forEach(
                both -> {
                  PadPosition position = both.position();
                  if (position.expired() > 0) {
                    past.add(
                        new Past(
                            position.code(), position.name(), place.name(), position.expired()));
                  }
                  both.answer()
                      .expiring()
                      .forEach(
                          lot ->
                              unused.add(
                                  new Unused(
                                      position.code(),
                                      position.name(),
                                      place.code(),
                                      place.name(),
                                      lot.lot(),
                                      lot.expiresOn(),
                                      lot.packs(),
                                      elsewhere(all, place, position.code(), lot))));
                }));
    unused.sort(Comparator.comparing(Unused::expiresOn).thenComparing(Unused::lot));
    return new View(unused, past);
  }

  private List<Use> elsewhere(
      Map<LocationView, List<Reorders.Both>> all,
      LocationView holder,
      String code,
      ReorderView.Expiring lot) {
    List<Use> uses = new ArrayList<>();
    all.forEach(
        (place, answers) -> {
          if (!place.id().equals(holder.id())) {
            answers.stream()
                .filter(both -> both.position().code().equals(code))
                .findFirst()
                .map(both -> usable(both, locations.today(place.id()), lot))
                .filter(packs -> packs > 0)
                .ifPresent(packs -> uses.add(new Use(place.code(), place.name(), packs)));
          }
        });
    uses.sort(Comparator.comparing(Use::packs).reversed());
    return uses;
  }

  /** What a location will use until then, less what it has or is coming. */
  static int usable(Reorders.Both both, LocalDate today, ReorderView.Expiring lot) {
    long days = ChronoUnit.DAYS.between(today, lot.expiresOn()) + 1;
    double use = Transfers.perDay(both.answer()) * Math.max(0, days);
    return (int)
        Math.max(
            0, Math.min(lot.packs(), Math.floor(use - Math.max(0, both.position().position()))));
  }
}
