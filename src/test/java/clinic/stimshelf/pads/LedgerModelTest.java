package clinic.stimshelf.pads;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.Setting;
import clinic.stimshelf.web.Refusal;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Design rule 2: pads add up. Random operations are held against a model of a few lines: what comes
 * adds, what goes subtracts, what would go below zero is refused and changes nothing.
 */
@QuarkusTest
class LedgerModelTest {
  private static final int OPERATIONS = 100;

  @Inject Cupboard cupboard;
  @Inject PadStock stock;
  @Inject StockKeeping keeping;
  @Inject PadLots lots;
  @Inject Supply supply;
  @Inject Locations locations;

  private record Place(Long lot, Long location) {}

  private record Line(Long id, Place place, int packs) {}

  private final Map<Place, Integer> model = new HashMap<>();
  private final List<Line> lines = new ArrayList<>();
  private int done;
  private Long patient;

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void balances_ledger_and_model_agree_after_random_operations(long seed) {
    RandomGenerator chance = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
    List<Long> places = List.of(cupboard.location(), cupboard.location());
    places.forEach(
        place -> locations.choose(place, Map.of(Setting.SEALED_PACKS_RETURN.key(), "yes")));
    PadTypeView type = cupboard.type();
    patient = cupboard.patient(places.get(0));
    List<Long> all = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      Long lot = cupboard.lot(type, places.get(0), "LOT " + i, 100 + 30 * i, 12);
      all.add(lot);
      model.put(new Place(lot, places.get(0)), 12);
    }
    for (int i = 0; i < OPERATIONS; i++) {
      step(chance, places, type, all);
      assertThat(cupboard.balances(type)).as("seed %s, step %s", seed, i).isEqualTo(expected());
      assertThat(cupboard.ledger(type)).as("seed %s, step %s", seed, i).isEqualTo(expected());
    }
    assertThat(done).as("operations that did something").isGreaterThan(OPERATIONS / 2);
  }

  private void step(RandomGenerator chance, List<Long> places, PadTypeView type, List<Long> all) {
    int which = chance.nextInt(all.size());
    Long lot = all.get(which);
    Long place = places.get(chance.nextInt(2));
    Long other = places.get(0).equals(place) ? places.get(1) : places.get(0);
    int packs = 1 + chance.nextInt(4);
    Place here = new Place(lot, place);
    int there = model.getOrDefault(here, 0);
    switch (chance.nextInt(8)) {
      case 0 ->
          moved(
              here,
              packs,
              true,
              () ->
                  supply
                      .receive(
                          new NewDelivery(
                              place,
                              null,
                              null,
                              List.of(
                                  new NewDelivery.Line(
                                      type.code(),
                                      "LOT " + which,
                                      cupboard.today(place).plusDays(100 + 30L * which),
                                      packs,
                                      null))),
                          cupboard.now())
                      .get(0));
      case 1, 2 ->
          moved(
              here,
              -packs,
              there >= packs,
              () ->
                  stock
                      .give(
                          77L,
                          patient,
                          place,
                          List.of(new PackLine(lot, packs, "by chance")),
                          cupboard.now())
                      .get(0));
      case 3 ->
          moved(
              here,
              -packs,
              there >= packs,
              () ->
                  stock
                      .drawerTake(
                          new DrawerTake(
                              lot, null, place, packs, DrawerReason.TRIAL, null, null, "by chance"),
                          cupboard.now())
                      .get(0));
      case 4 ->
          moved(
              here,
              -packs,
              there >= packs,
              () -> keeping.discard(lot, place, packs, "torn", cupboard.now()));
      case 5 -> {
        List<Long> made = new ArrayList<>();
        attempt(
            there >= packs,
            () ->
                made.addAll(
                    keeping.transfer(
                        place,
                        other,
                        List.of(new PackLine(lot, packs, null)),
                        null,
                        cupboard.now())));
        if (!made.isEmpty()) {
          model.merge(here, -packs, Integer::sum);
          model.merge(new Place(lot, other), packs, Integer::sum);
        }
      }
      case 6 -> {
        int counted = chance.nextInt(12);
        keeping.count(place, List.of(new CountedLot(lot, counted)), "miscounted", cupboard.now());
        model.put(here, counted);
      }
      default -> {
        if (!lines.isEmpty()) {
          Line line = lines.remove(chance.nextInt(lines.size()));
          int after = model.getOrDefault(line.place(), 0) - line.packs();
          attempt(after >= 0, () -> keeping.reverse(line.id(), "a mistake", cupboard.now()));
          if (after >= 0) {
            model.put(line.place(), after);
          }
        }
      }
    }
  }

  private Map<List<Long>, Integer> expected() {
    Map<List<Long>, Integer> packs = new HashMap<>();
    model.forEach(
        (place, there) -> {
          if (there != 0) {
            packs.put(List.of(place.lot(), place.location()), there);
          }
        });
    return packs;
  }

  private interface Operation {
    Long run();
  }

  private void moved(Place place, int packs, boolean allowed, Operation operation) {
    List<Long> made = new ArrayList<>();
    attempt(allowed, () -> made.add(operation.run()));
    if (allowed) {
      model.merge(place, packs, Integer::sum);
      lines.add(new Line(made.get(0), place, packs));
    }
  }

  private void attempt(boolean allowed, Runnable operation) {
    boolean refused = false;
    try {
      operation.run();
    } catch (Refusal refusal) {
      refused = true;
    }
    assertThat(refused).isEqualTo(!allowed);
    done += refused ? 0 : 1;
  }
}
