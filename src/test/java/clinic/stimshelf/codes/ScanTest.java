package clinic.stimshelf.codes;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.codes.udi.UdiReader;
import java.util.Locale;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ScanTest {

  private static final UdiReader READER = UdiReader.of(2026);

  private static Scan scan(String text) {
    return Scan.of(text, READER);
  }

  @Test
  void anOwnTagIsKnownByItsCheckCharacter() {
    Tag tag = Tag.of(Tag.Kind.UNIT, 100);
    assertThat(scan("]C0" + tag.text().toLowerCase(Locale.ROOT) + "\r"))
        .isEqualTo(new Scan.OwnTag(tag));
    assertThat(scan(tag.text().replaceFirst("1", "7"))).isInstanceOf(Scan.MisreadTag.class);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "]d201095060001178431728022910LOT9",
        "01095060001178431728022910LOT9",
        "0109506000117843",
        "\u001D010950600011784310LOT9\r",
        "~010950600011784310LOT9",
        "(01)09506000117843(10)9",
        "]E09506000117843",
        "+A123BJC5D6E71G\r\n",
        "*+A123BJC5D6E71G*",
        "]d1+A123BJC5D6E71G",
        "=)1TE123456A&)RZ12345678",
        "https://example.org/01/09506000117843"
      })
  void aDeviceLabelIsKnownInEachOfItsSpellings(String text) {
    assertThat(scan(text))
        .isInstanceOfSatisfying(
            Scan.DeviceLabel.class, label -> assertThat(label.udi().usable()).isTrue());
  }

  @ParameterizedTest
  @ValueSource(strings = {"]d20109506000117844", "]X", "]d2", "+A123BJC5D6E71H"})
  void aBrokenDeviceLabelIsStillOneAndSaysWhatIsWrong(String text) {
    assertThat(scan(text))
        .isInstanceOfSatisfying(
            Scan.DeviceLabel.class, label -> assertThat(label.udi().problems()).isNotEmpty());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"+1 (212) 555-0100", "+12125550100", "(240) 555-0100", "Rosa Lindqvist", "(Rosa)"})
  void telephoneNumbersAndNamesAreWords(String text) {
    assertThat(scan(" " + text + "\r\n")).isEqualTo(new Scan.Words(text, null, null));
  }

  @Test
  void aChartNumberMayBeATagTheClinicMadeItself() {
    assertThat(scan("MRN-20417\r"))
        .isEqualTo(new Scan.Words("MRN-20417", Tag.of("MRN-20417"), null));
  }

  @Test
  void digitsMayBeAChartNumberOrAProductNumber() {
    assertThat(scan("12345670"))
        .isInstanceOfSatisfying(
            Scan.Words.class,
            words -> {
              assertThat(words.tag()).isEqualTo(Tag.of("12345670"));
              assertThat(words.label().deviceIdentifier()).isEqualTo("00000012345670");
            });
    assertThat(scan("12345671")).isEqualTo(new Scan.Words("12345671", Tag.of("12345671"), null));
  }

  @Test
  void aMisreadLabelWithoutAScannersMarkKeepsItsProblem() {
    assertThat(scan("010950600011784410LOT9"))
        .isInstanceOfSatisfying(
            Scan.Words.class,
            words -> assertThat(words.label().problems()).anyMatch(p -> p.contains("should be 3")));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", " ", "\r\n"})
  void anEnterAloneIsNothing(String text) {
    assertThat(scan(text)).isEqualTo(new Scan.Nothing());
  }

  @Property(tries = 2000)
  void throwsOnNoTextAtAll(@ForAll String text) {
    assertThat(scan(text)).isNotNull();
  }
}
