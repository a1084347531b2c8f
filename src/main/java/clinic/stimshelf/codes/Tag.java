package clinic.stimshelf.codes;

import clinic.stimshelf.codes.scanner.ScannerText;
import clinic.stimshelf.codes.scanner.SymbologyId;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * What is written on a unit, kit, part or pad bag.
 *
 * <p>An <em>own</em> tag, as in {@code U-0001234}, is a letter for the kind, a hyphen, six digits
 * that mean nothing, and a check character (ISO/IEC 7064, MOD 37,36, over letter and digits), so
 * that a mistyped or misread tag is caught instead of finding another unit. Numbers whose check
 * character would be I or O are never given out, and a person's I and O are read as 1 and 0.
 *
 * <p>A <em>foreign</em> tag is any other text of 1 to 32 letters, digits, dots, underscores and
 * hyphens that the clinic already uses; it has no check character.
 *
 * @param text as written; an own tag always in capitals with its hyphen
 */
public record Tag(String text) {

  /** What an own tag hangs on; the letter is never I or O. */
  public enum Kind {
    UNIT('U'),
    KIT('K'),
    PART('P'),
    PAD_BAG('B');

    private final char letter;

    Kind(char letter) {
      this.letter = letter;
    }

    /** The first letter of the kind's tags. */
    public char letter() {
      return letter;
    }

    private static Optional<Kind> of(char letter) {
      for (Kind kind : values()) {
        if (kind.letter == letter) {
          return Optional.of(kind);
        }
      }
      return Optional.empty();
    }
  }

  /** The last number that an own tag can carry. */
  public static final int LAST_NUMBER = 999_999;

  private static final Pattern ALLOWED = Pattern.compile("[A-Za-z0-9._-]{1,32}");
  private static final Pattern OWN =
      Pattern.compile("(?<letter>[UKPB])(?<gap>[- ]?)(?<digits>[0-9OI]{6})(?<check>[0-9A-Z])");

  /**
   * Reads a tag as scanned or typed: frame, blanks, symbology identifier and letter case are put
   * right here and nowhere else.
   *
   * @throws IllegalArgumentException with words for the reader, see {@link #problemWith}
   */
  public Tag {
    Optional<String> problem = problemWith(text);
    if (problem.isPresent()) {
      throw new IllegalArgumentException(problem.get());
    }
    String cleaned = clean(text);
    String own = ownForm(cleaned);
    text = own != null && CheckCharacter.closes(own.replace("-", "")) ? own : cleaned;
  }

  /** Same as the constructor. */
  public static Tag of(String typed) {
    return new Tag(typed);
  }

  /**
   * The own tag with this number.
   *
   * @throws IllegalArgumentException if the number is outside 1 to {@value #LAST_NUMBER}, or one of
   *     those that are never given out
   */
  public static Tag of(Kind kind, int number) {
    if (number < 1 || number > LAST_NUMBER || !isGivenOut(kind, number)) {
      throw new IllegalArgumentException(
          "%d is not a number for a tag: use one from 1 to %d that next() proposes."
              .formatted(number, LAST_NUMBER));
    }
    return new Tag(spell(kind, number));
  }

  /**
   * Proposes the own tag that follows the highest number in use. Two people may be proposed the
   * same one; the shelf's unique key decides.
   *
   * @param highest the highest number in use, 0 if there is none yet
   * @throws IllegalStateException if the numbers are used up
   */
  public static Tag next(Kind kind, int highest) {
    for (int number = Math.max(highest, 0) + 1; number <= LAST_NUMBER; number++) {
      if (isGivenOut(kind, number)) {
        return of(kind, number);
      }
    }
    throw new IllegalStateException(
        "All %d numbers for %s tags are used: type a tag of your own."
            .formatted(LAST_NUMBER, kind.name().toLowerCase(Locale.ROOT).replace('_', ' ')));
  }

  /** What is wrong with a typed or scanned tag, in words; empty if it is one. */
  public static Optional<String> problemWith(String typed) {
    String text = clean(typed);
    if (text.isEmpty()) {
      return Optional.of("There is no tag: scan or type it.");
    }
    String own = ownForm(text);
    if (own != null && CheckCharacter.closes(own.replace("-", ""))) {
      return Optional.empty();
    }
    if (isMisread(typed)) {
      return Optional.of(
          "'%s' is not a tag of ours: its last character does not fit the rest. Read the tag again, or scan it."
              .formatted(text));
    }
    if (!ALLOWED.matcher(text).matches()
        || text.chars().noneMatch(c -> c < 128 && Character.isLetterOrDigit(c))) {
      return Optional.of(
          "'%s' cannot be a tag: use 1 to 32 letters (A-Z), digits, dots, underscores and hyphens, with at least one letter or digit."
              .formatted(shorten(text)));
    }
    return Optional.empty();
  }

  /** Whether the text is spelled like one of our tags and its check character is wrong. */
  static boolean isMisread(String typed) {
    String text = clean(typed);
    String own = ownForm(text);
    return own != null && text.indexOf('-') == 1 && !CheckCharacter.closes(own.replace("-", ""));
  }

  /** What kind of thing an own tag hangs on; empty for a foreign tag. */
  public Optional<Kind> kind() {
    return isOwn() ? Kind.of(text.charAt(0)) : Optional.empty();
  }

  /** The number of an own tag; empty for a foreign tag. */
  public OptionalInt number() {
    return isOwn() ? OptionalInt.of(Integer.parseInt(text.substring(2, 8))) : OptionalInt.empty();
  }

  /** Whether this tag carries our check character. */
  public boolean isOwn() {
    return text.equals(ownForm(text));
  }

  /** What two tags are compared by: letter case makes no difference. */
  public String key() {
    return text.toUpperCase(Locale.ROOT);
  }

  @Override
  public String toString() {
    return text;
  }

  private static boolean isGivenOut(Kind kind, int number) {
    String spelled = spell(kind, number);
    char check = spelled.charAt(spelled.length() - 1);
    return check != 'I' && check != 'O';
  }

  private static String spell(Kind kind, int number) {
    String digits = String.format(Locale.ROOT, "%06d", number);
    return kind.letter + "-" + digits + CheckCharacter.of(kind.letter + digits);
  }

  /** The text in the spelling of an own tag, right or wrong; null if it has another shape. */
  private static @Nullable String ownForm(String text) {
    Matcher m = OWN.matcher(text.toUpperCase(Locale.ROOT));
    if (!m.matches()) {
      return null;
    }
    String tail = (m.group("digits") + m.group("check")).replace('O', '0').replace('I', '1');
    return m.group("letter") + "-" + tail;
  }

  private static String clean(String typed) {
    return ScannerText.plain(SymbologyId.dropFrom(ScannerText.withoutFrame(typed)));
  }

  private static String shorten(String text) {
    return text.length() <= 40 ? text : text.substring(0, 40) + "…";
  }
}
