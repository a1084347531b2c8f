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
import java.util.HashMap;
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

  /** A lot that will not be used up where it lies. */
  private record Left(LocationView place, PadPosition position, ReorderView.Expiring lot) {}

  /**
   * The first to expire first. Two lots are not offered for the same use.
   *
   * @param shown locations whose lots are listed
   * @param mine locations that could use them
   */
  @Transactional
  public View at(Collection<Long> shown, Collection<Long> mine) {
    Map<LocationView, List<Reorders.Both>> all = new LinkedHashMap<>();
    mine.forEach(place -> all.put(locations.byId(place), reorders.all(place)));
    List<Left> left = new ArrayList<>();
    List<Past> past = new ArrayList<>();
    all.forEach(
        (place, answers) ->
            answers.forEach(
                both -> {
                  PadPosition position = both.position();
                  if (position.expired() > 0 && shown.contains(place.id())) {
                    past.add(
                        new Past(
                            position.code(), position.name(), place.name(), position.expired()));
                  }
                  both.answer().expiring().forEach(lot -> left.add(new Left(place, position, lot)));
                }));
    left.sort(
        Comparator.comparing((Left one) -> one.lot().expiresOn())
            .thenComparing(one -> one.lot().lot()));
    Map<String, Integer> promised = new HashMap<>();
    List<Unused> unused = new ArrayList<>();
    for (Left one : left) {
      List<Use> uses = elsewhere(all, one, promised);
      if (shown.contains(one.place().id())) {
        unused.add(
            new Unused(
                one.position().code(),
                one.position().name(),
                one.place().code(),
                one.place().name(),
                one.lot().lot(),
                one.lot().expiresOn(),
                one.lot().packs(),
                uses));
      }
    }
    return new View(unused, past);
  }

  /**
   * @param promised packs of lots that expire earlier which a location will use, by place and type
   */
  private List<Use> elsewhere(
      Map<LocationView, List<Reorders.Both>> all, Left left, Map<String, Integer> promised) {
    List<Use> uses = new ArrayList<>();
    String code = left.position().code();
    all.forEach(
        (place, answers) -> {
          if (!place.id().equals(left.place().id())) {
            answers.stream()
                .filter(both -> both.position().code().equals(code))
                .findFirst()
                .map(
                    both ->
                        usable(both, locations.today(place.id()), left.lot())
                            - promised.getOrDefault(place.code() + " " + code, 0))
                .filter(packs -> packs > 0)
                .ifPresent(
                    packs ->
                        uses.add(
                            new Use(
                                place.code(), place.name(), Math.min(packs, left.lot().packs()))));
          }
        });
    uses.sort(Comparator.comparing(Use::packs).reversed());
    List<Use> needed = new ArrayList<>();
    int missing = left.lot().packs();
    for (Use use : uses) {
      int packs = Math.min(missing, use.packs());
      if (packs > 0) {
        missing -= packs;
        promised.merge(use.location() + " " + code, packs, Integer::sum);
        needed.add(new Use(use.location(), use.locationName(), packs));
      }
    }
    return needed;
  }

  /** What a location will use until then, less what it has or is coming. */
  static int usable(Reorders.Both both, LocalDate today, ReorderView.Expiring lot) {
    long days = ChronoUnit.DAYS.between(today, lot.expiresOn()) + 1;
    double use = Transfers.perDay(both.answer()) * Math.max(0, days);
    return (int) Math.max(0, Math.floor(use - Math.max(0, both.position().position())));
  }
}
