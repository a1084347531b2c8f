package clinic.stimshelf.exchange;

import java.util.List;
import java.util.random.RandomGenerator;
import java.util.random.RandomGeneratorFactory;

/** Chance for the demo: the same seed, the same demo. */
final class SeedChance {
  private final RandomGenerator random;

  SeedChance(long seed) {
    random = RandomGeneratorFactory.of("L64X128MixRandom").create(seed);
  }

  /** A whole number from least to most, both included. */
  int between(int least, int most) {
    return random.nextInt(least, most + 1);
  }

  boolean of(double probability) {
    return random.nextDouble() < probability;
  }

  double share() {
    return random.nextDouble();
  }

  double around(double mean, double deviation) {
    return mean + deviation * random.nextGaussian();
  }

  <T> T one(List<T> of) {
    return of.get(random.nextInt(of.size()));
  }

  @SafeVarargs
  final <T> T one(T... of) {
    return of[random.nextInt(of.length)];
  }
}
