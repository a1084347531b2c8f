package clinic.stimshelf.codes.udi;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Published and derived labels; the sources stand at the head of udi-vectors.tsv. */
class UdiVectorsTest {

  private static final UdiReader READER = UdiReader.of(2026);

  record Vector(String number, String scan, Map<String, String> expected, List<String> problems) {
    @Override
    public String toString() {
      return number;
    }

    static Vector of(String line) {
      String[] columns = line.split("\t", -1);
      Map<String, String> expected = new TreeMap<>();
      expected.put("usable", "true");
      List<String> problems = List.of();
      // A problem's words may hold a semicolon, so they stand last.
      String[] halves = columns[2].split(";?problem=", 2);
      if (halves.length > 1) {
        problems = List.of(halves[1]);
      }
      for (String pair : halves[0].split(";")) {
        String[] parts = pair.split("=", 2);
        if (parts[0].equals("unusable")) {
          expected.put("usable", "false");
        } else {
          expected.put(parts[0], parts[1]);
        }
      }
      return new Vector(columns[0], columns[1].replace('\u241D', '\u001D'), expected, problems);
    }
  }

  static Stream<Vector> vectors() {
    try (InputStream in =
        UdiVectorsTest.class.getResourceAsStream("/clinic/stimshelf/codes/udi-vectors.tsv")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines().filter(line -> !line.startsWith("#")).map(Vector::of).toList().stream();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void allVectorsOfTheListAreThere() {
    assertThat(vectors().map(v -> v.number().replaceAll("[abc]$", "")).distinct()).hasSize(36);
  }

  @ParameterizedTest
  @MethodSource("vectors")
  void readsWhatTheLabelSaysAndNothingElse(Vector vector) {
    Udi udi = READER.read(vector.scan());

    assertThat(fieldsOf(udi, vector.expected())).isEqualTo(vector.expected());
    assertThat(udi.raw()).isEqualTo(vector.scan());
    if (vector.problems().isEmpty()) {
      assertThat(udi.problems()).isEmpty();
    } else {
      assertThat(udi.problems()).anyMatch(p -> p.contains(vector.problems().get(0)));
    }
  }

  /** Every field that was found, and of the elements those that the vector names. */
  private static Map<String, String> fieldsOf(Udi udi, Map<String, String> named) {
    Map<String, String> found = new TreeMap<>();
    found.put("usable", String.valueOf(udi.usable()));
    put(found, "issuer", udi.issuer());
    put(found, "di", udi.deviceIdentifier());
    put(found, "lot", udi.lot());
    put(found, "serial", udi.serial());
    put(found, "exp", udi.expiresOn());
    put(found, "hour", udi.expiresAtHour());
    put(found, "made", udi.madeOn());
    put(found, "count", udi.count());
    put(found, "symbology", udi.symbology());
    udi.elements()
        .forEach(
            (key, value) -> {
              if (named.containsKey(key)) {
                found.put(key, value);
              }
            });
    return found;
  }

  private static void put(Map<String, String> found, String key, Object value) {
    if (value != null) {
      found.put(key, Objects.toString(value));
    }
  }
}
