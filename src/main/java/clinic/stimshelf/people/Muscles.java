package clinic.stimshelf.people;

import clinic.stimshelf.web.ConfigFiles;
import clinic.stimshelf.web.NotFound;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/** The body regions and muscle groups of {@code config/muscles.yaml}, in its order. */
@Startup
@Singleton
public class Muscles {
  static final String FILE = "muscles.yaml";
  private static final Set<String> LIMBS = Set.of("arm", "leg", "trunk");
  static final Set<String> PLACES = Set.of("head", "neck", "chest", "trunk", "pelvis");
  private static final Pattern KEY = Pattern.compile("[a-z0-9-]{1,40}");

  private final Map<String, BodyRegion> regions = new LinkedHashMap<>();
  private final Map<String, Muscle> muscles = new LinkedHashMap<>();

  record Body(List<BodyRegion> regions, List<Muscle> muscles) {}

  @Inject
  Muscles(ConfigFiles files) {
    this(files.read(FILE, Body.class));
  }

  /**
   * @throws IllegalStateException naming everything that is wrong in the file
   */
  Muscles(Body body) {
    List<String> faults = new ArrayList<>();
    for (BodyRegion region : orNone(body.regions())) {
      String name = "Region “" + region.key() + "”";
      need(faults, name, "key", region.key(), region.key() != null && fits(region.key()));
      need(faults, name, "english", region.english(), true);
      need(faults, name, "spanish", region.spanish(), true);
      if (!LIMBS.contains(String.valueOf(region.limb()))) {
        faults.add(name + " needs a limb: arm, leg or trunk.");
      }
      if (region.near() == null || !PLACES.containsAll(region.near())) {
        faults.add(name + " needs “near”: a list of head, neck, chest, trunk, pelvis, or [].");
      }
      if (regions.put(region.key(), region) != null) {
        faults.add(name + " stands there twice.");
      }
    }
    for (Muscle muscle : orNone(body.muscles())) {
      String name = "Muscle “" + muscle.key() + "”";
      need(faults, name, "key", muscle.key(), muscle.key() != null && fits(muscle.key()));
      need(faults, name, "english", muscle.english(), true);
      need(faults, name, "spanish", muscle.spanish(), true);
      need(faults, name, "placement", muscle.placement(), true);
      need(faults, name, "placement-spanish", muscle.placementSpanish(), true);
      if (!regions.containsKey(muscle.region())) {
        faults.add(name + " names a region that is not listed: “" + muscle.region() + "”.");
      }
      if (muscles.put(muscle.key(), muscle) != null) {
        faults.add(name + " stands there twice.");
      }
    }
    if (muscles.isEmpty()) {
      faults.add("It names no muscle.");
    }
    ConfigFiles.refuse(FILE, faults);
  }

  public List<Muscle> all() {
    return List.copyOf(muscles.values());
  }

  public List<BodyRegion> regions() {
    return List.copyOf(regions.values());
  }

  public Optional<Muscle> find(String key) {
    return Optional.ofNullable(muscles.get(key));
  }

  /**
   * @throws NotFound if the file names no such muscle
   */
  public Muscle muscle(String key) {
    return find(key)
        .orElseThrow(() -> new NotFound("config/muscles.yaml names no muscle “" + key + "”."));
  }

  /**
   * @throws NotFound if the file names no such region
   */
  public BodyRegion region(String key) {
    BodyRegion region = regions.get(key);
    if (region == null) {
      throw new NotFound("config/muscles.yaml names no region “" + key + "”.");
    }
    return region;
  }

  private static void need(
      List<String> faults, String name, String field, String text, boolean ok) {
    if (text == null || text.isBlank() || !ok) {
      faults.add(name + " needs “" + field + "”" + (ok ? "." : " of a-z, 0-9 and dashes."));
    }
  }

  private static boolean fits(String key) {
    return KEY.matcher(key).matches();
  }

  private static <T> List<T> orNone(List<T> list) {
    return list == null ? List.of() : list;
  }
}
