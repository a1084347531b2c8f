package clinic.stimshelf.codes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Locale;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TagTest {

  private static final String ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

  /**
   * Published identifiers under ISO/IEC 7064, MOD 37,36: GRid (IFPI's standard, A12425GABC1234002M
   * is its example) and ISAN (ISO 15706; 0000-0000-D07A-0090-Q and 0000-0000-3A8D-0000-Z).
   */
  @ParameterizedTest
  @ValueSource(
      strings = {
        "A12425GABC1234002M",
        "A12425GXYZ98760086",
        "A12425G1234567890L",
        "00000000D07A0090Q",
        "000000003A8D0000Z"
      })
  void checkCharacterAgreesWithPublishedIdentifiers(String identifier) {
    assertThat(CheckCharacter.closes(identifier)).isTrue();
  }

  @Property(tries = 200)
  void everySingleWrongCharacterOfAnOwnTagIsCaught(@ForAll @IntRange(max = 990_000) int after) {
    String tag = Tag.next(Tag.Kind.UNIT, after).text();
    for (int i = 2; i < tag.length(); i++) {
      for (char c : ALPHABET.toCharArray()) {
        String wrong = tag.substring(0, i) + c + tag.substring(i + 1);
        // I and O are read as 1 and 0 on purpose.
        String meant =
            wrong.substring(0, 2) + wrong.substring(2).replace('I', '1').replace('O', '0');
        boolean readAsAnotherOwnTag = Tag.problemWith(wrong).isEmpty() && Tag.of(wrong).isOwn();
        assertThat(readAsAnotherOwnTag).as(wrong).isEqualTo(meant.equals(tag));
      }
    }
  }

  @Property(tries = 200)
  void aTagOfOneKindIsNeverReadAsAnotherKind(@ForAll @IntRange(max = 990_000) int after) {
    String unit = Tag.next(Tag.Kind.UNIT, after).text();
    for (Tag.Kind kind : Tag.Kind.values()) {
      String other = kind.letter() + unit.substring(1);
      assertThat(Tag.problemWith(other).isEmpty()).isEqualTo(kind == Tag.Kind.UNIT);
    }
  }

  @Test
  void nextNeverProposesACheckCharacterThatLooksLikeADigit() {
    Tag tag = Tag.next(Tag.Kind.PAD_BAG, 0);
    for (int i = 0; i < 500; i++) {
      assertThat(tag.text()).matches("B-[0-9]{6}[0-9A-HJ-NP-Z]");
      Tag after = Tag.next(Tag.Kind.PAD_BAG, tag.number().orElseThrow());
      assertThat(after.number().orElseThrow()).isGreaterThan(tag.number().orElseThrow());
      tag = after;
    }
    assertThatThrownBy(() -> Tag.next(Tag.Kind.UNIT, Tag.LAST_NUMBER))
        .isInstanceOf(IllegalStateException.class);
  }

  @Test
  void aNumberThatIsNeverGivenOutIsRefused() {
    int skipped =
        IntStream.rangeClosed(1, 500)
            .filter(n -> "IO".indexOf(CheckCharacter.of("U%06d".formatted(n))) >= 0)
            .findFirst()
            .orElseThrow();
    assertThatIllegalArgumentException().isThrownBy(() -> Tag.of(Tag.Kind.UNIT, skipped));
    assertThatIllegalArgumentException().isThrownBy(() -> Tag.of(Tag.Kind.UNIT, 0));
    assertThatIllegalArgumentException().isThrownBy(() -> Tag.of(Tag.Kind.UNIT, 1_000_000));
  }

  @Test
  void whatScannersAndHandsAddIsTakenOff() {
    Tag tag = Tag.of(Tag.Kind.UNIT, 100);
    String text = tag.text();
    assertThat(
            Stream.of(
                    text + "\r\n",
                    "  " + text + " ",
                    "\u0002" + text + "\u0003",
                    "\uFEFF" + text + "\t",
                    "]C0" + text,
                    "]d1" + text + "\r",
                    text.toLowerCase(Locale.ROOT),
                    text.replace("-", ""),
                    text.replace('-', ' '),
                    text.replaceFirst("00", "OO").replaceFirst("01", "0I"))
                .map(Tag::of))
        .allMatch(tag::equals);
  }

  @ParameterizedTest
  @ValueSource(strings = {"A7", "shelf.3_b-2", "U-017", "U-12345678", "7"})
  void aClinicMayKeepItsOwnTags(String text) {
    Tag tag = Tag.of(" " + text + "\r");
    assertThat(tag.text()).isEqualTo(text);
    assertThat(tag.isOwn()).isFalse();
    assertThat(tag.kind()).isEmpty();
    assertThat(tag.number()).isEmpty();
  }

  @Test
  void foreignTagsAreComparedWithoutLetterCase() {
    assertThat(Tag.of("shelf-A").key()).isEqualTo(Tag.of("SHELF-a").key());
    assertThat(Tag.of("shelf-A").text()).isEqualTo("shelf-A");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        " \r\n",
        "..",
        "-",
        "two words",
        "ä",
        "a/b",
        "123456789012345678901234567890123"
      })
  void whatCannotBeATagIsRefusedInWords(String text) {
    assertThat(Tag.problemWith(text)).isPresent();
    assertThatIllegalArgumentException().isThrownBy(() -> Tag.of(text));
  }

  @Test
  void aMisreadOwnTagIsRefusedInWords() {
    String text = Tag.of(Tag.Kind.KIT, 100).text();
    String misread = text.replaceFirst("1", "7");
    assertThat(Tag.problemWith(misread)).hasValueSatisfying(p -> assertThat(p).contains(misread));
  }

  @Property
  void everyTagMatchesThePatternOfTheApi(@ForAll String text) {
    if (Tag.problemWith(text).isEmpty()) {
      assertThat(Tag.of(text).text()).matches("[A-Za-z0-9._-]{1,32}");
      assertThat(Tag.of(Tag.of(text).text())).isEqualTo(Tag.of(text));
    } else {
      assertThatIllegalArgumentException().isThrownBy(() -> Tag.of(text));
    }
  }
}
