package clinic.stimshelf.access;

import clinic.stimshelf.web.Refusals;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Stream;

/**
 * Which passwords are taken: 15 to 128 characters, any characters, none that others guess first.
 * Length and block list follow NIST SP 800-63B-4 for a password that stands alone; as there, no
 * rule asks for digits or capitals and no password runs out.
 */
final class PasswordRules {
  static final int LEAST = 15;
  static final int MOST = 128;

  /** What may surround words of the list without making a password hard to guess. */
  private static final int PADDING = 4;

  /** A shorter pattern, typed over and over, is guessed early. */
  private static final int PATTERN = 5;

  private static final List<String> COMMON = read();

  private PasswordRules() {}

  /**
   * Says everything that stands against a new password.
   *
   * @param field the form's field
   * @param near words around the account: its username, the person's and the clinic's names
   */
  static void check(String field, String password, List<String> near, Refusals refusals) {
    String normal = PasswordHash.normal(password);
    int length = normal.codePointCount(0, normal.length());
    if (length < LEAST) {
      refusals.add(
          field,
          "The password has " + length + " characters; at least " + LEAST + " are needed.",
          "Take a sentence or four unrelated words.");
    } else if (length > MOST) {
      refusals.add(
          field, "The password has " + length + " characters; at most " + MOST + " are possible.");
    } else if (guessedEarly(normal, near)) {
      refusals.add(
          field,
          "This password is among those that are tried first, or is made of such words, a repeated"
              + " pattern or the names around the account.",
          "Take a sentence or four unrelated words.");
    }
  }

  static boolean guessedEarly(String password, List<String> near) {
    String lower = password.toLowerCase(Locale.ROOT).replaceAll("\\s", "");
    if (repeats(lower)) {
      return true;
    }
    List<String> words =
        Stream.concat(
                COMMON.stream(),
                near.stream()
                    .filter(Objects::nonNull)
                    .map(word -> word.toLowerCase(Locale.ROOT).replaceAll("\\s", ""))
                    .filter(word -> word.length() >= 4))
            .toList();
    return padding(lower, words) <= PADDING;
  }

  /** Fewest characters left over when the rest is laid out with words of the list. */
  private static int padding(String text, List<String> words) {
    int[] least = new int[text.length() + 1];
    for (int end = 1; end <= text.length(); end++) {
      least[end] = least[end - 1] + 1;
      for (String word : words) {
        if (text.startsWith(word, end - word.length())) {
          least[end] = Math.min(least[end], least[end - word.length()]);
        }
      }
    }
    return least[text.length()];
  }

  private static boolean repeats(String text) {
    for (int period = 1; period <= PATTERN; period++) {
      int step = period;
      if (text.length() > period
          && text.chars().skip(period).count() > 0
          && java.util.stream.IntStream.range(period, text.length())
              .allMatch(i -> text.charAt(i) == text.charAt(i - step))) {
        return true;
      }
    }
    return false;
  }

  private static List<String> read() {
    try (InputStream stream =
            Objects.requireNonNull(
                PasswordRules.class.getResourceAsStream("/access/common-passwords.txt"));
        BufferedReader reader =
            new BufferedReader(new InputStreamReader(stream, StandardCharsets.UTF_8))) {
      return new ArrayList<>(
          reader.lines().filter(line -> !line.isBlank() && !line.startsWith("#")).toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
