package clinic.stimshelf.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Everybody can read the pages. Ratio and relative luminance as defined in WCAG 2.2
 * (w3.org/TR/WCAG22, definitions "contrast ratio" and "relative luminance"); 4.5 for text (1.4.3),
 * 3 for borders, shapes and focus (1.4.11, 2.4.13).
 */
class LookTest {
  private static final Path RESOURCES = Path.of("src/main/resources");
  private static final Pattern TOKEN = Pattern.compile("--([a-z-]+):\\s*#([0-9a-f]{6})");
  private static final List<String> GROUNDS = List.of("paper", "sheet");

  @Test
  void ratioIsThatOfTheStandard() {
    assertThat(ratio("000000", "ffffff")).isEqualTo(21.0, within(1e-9));
    // The grey that pages about WCAG name as the lightest that passes on white.
    assertThat(ratio("767676", "ffffff")).isEqualTo(4.54, within(0.005));
  }

  @ParameterizedTest
  @ValueSource(strings = {"light", "dark"})
  void textStandsOutFromItsGround(String scheme) {
    Map<String, String> token = tokens(scheme);
    for (String ground : GROUNDS) {
      for (String text :
          List.of("ink", "ink-soft", "copper", "copper-deep", "calm", "wait", "heed", "stop")) {
        assertReadable(token, text, ground, 4.5);
      }
    }
    assertReadable(token, "on-copper", "copper", 4.5);
    assertReadable(token, "on-copper", "copper-deep", 4.5);
    for (String wash : List.of("copper-wash", "calm-wash", "wait-wash", "heed-wash", "stop-wash")) {
      assertReadable(token, "ink", wash, 4.5);
      assertReadable(token, "ink-soft", wash, 4.5);
      assertReadable(token, "copper", wash, 4.5);
    }
    assertReadable(token, "stop", "stop-wash", 4.5);
    assertReadable(token, "copper-deep", "copper-wash", 4.5);
  }

  @ParameterizedTest
  @ValueSource(strings = {"light", "dark"})
  void fieldsShapesAndFocusStandOutFromTheirGround(String scheme) {
    Map<String, String> token = tokens(scheme);
    for (String ground : GROUNDS) {
      for (String line : List.of("ink-soft", "copper", "calm", "wait", "heed", "stop")) {
        assertReadable(token, line, ground, 3);
      }
    }
    assertReadable(token, "copper", "copper-wash", 3);
    assertReadable(token, "copper", "heed-wash", 3);
  }

  /**
   * The pages' policy forbids inline style and script; a template that needs one would not work.
   */
  @Test
  void noTemplateCarriesStyleOrScriptOfItsOwn() throws IOException {
    Pattern inline =
        Pattern.compile(
            "<style|<[a-z][^>]*\\s(style|on[a-z]+|hx-on[^=]*)\\s*=|<script(?![^>]*\\ssrc=)|javascript:",
            Pattern.CASE_INSENSITIVE);
    try (Stream<Path> templates = Files.walk(RESOURCES.resolve("templates"))) {
      assertThat(templates.filter(path -> path.toString().endsWith(".html")))
          .isNotEmpty()
          .allSatisfy(
              path -> assertThat(inline.matcher(read(path)).find()).as(path.toString()).isFalse());
    }
  }

  private static void assertReadable(
      Map<String, String> token, String front, String ground, double least) {
    assertThat(token).containsKeys(front, ground);
    assertThat(ratio(token.get(front), token.get(ground)))
        .as(front + " on " + ground)
        .isGreaterThanOrEqualTo(least);
  }

  private static Map<String, String> tokens(String scheme) {
    String css = read(RESOURCES.resolve("META-INF/resources/stimshelf.css"));
    int dark = css.indexOf("prefers-color-scheme: dark");
    int end = css.indexOf("/* 2 ground */");
    assertThat(dark).isPositive();
    assertThat(end).isGreaterThan(dark);
    Map<String, String> tokens = new LinkedHashMap<>();
    collect(css.substring(0, dark), tokens);
    if (scheme.equals("dark")) {
      collect(css.substring(dark, end), tokens);
    }
    return tokens;
  }

  private static void collect(String css, Map<String, String> tokens) {
    Matcher matcher = TOKEN.matcher(css);
    while (matcher.find()) {
      tokens.put(matcher.group(1), matcher.group(2));
    }
  }

  private static double ratio(String one, String other) {
    double a = luminance(one);
    double b = luminance(other);
    return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  }

  private static double luminance(String hex) {
    double[] share = new double[3];
    for (int i = 0; i < 3; i++) {
      double value = Integer.parseInt(hex.substring(2 * i, 2 * i + 2), 16) / 255.0;
      share[i] = value <= 0.04045 ? value / 12.92 : Math.pow((value + 0.055) / 1.055, 2.4);
    }
    return 0.2126 * share[0] + 0.7152 * share[1] + 0.0722 * share[2];
  }

  private static String read(Path path) {
    try {
      return Files.readString(path);
    } catch (IOException unreadable) {
      throw new UncheckedIOException(unreadable);
    }
  }
}
