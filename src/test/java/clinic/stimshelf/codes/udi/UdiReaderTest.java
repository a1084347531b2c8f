package clinic.stimshelf.codes.udi;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import clinic.stimshelf.codes.scanner.Separators;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class UdiReaderTest {

  private static final UdiReader READER = UdiReader.of(2026);

  /** GS1 General Specifications §7.12, worked through for the years beside them. */
  @ParameterizedTest
  @CsvSource({
    "2026, 00, 2000",
    "2026, 26, 2026",
    "2026, 76, 2076",
    "2026, 77, 1977",
    "2026, 99, 1999",
    "2051, 00, 2100",
    "2051, 01, 2101",
    "2051, 15, 2015",
    "2075, 25, 2125",
    "2075, 26, 2026"
  })
  void twoDigitsMeanTheNearestYear(int currentYear, int twoDigits, int year) {
    assertThat(LabelDates.year(twoDigits, currentYear)).isEqualTo(year);
    String scan = "]d2010950600011784317%02d0601".formatted(twoDigits);
    assertThat(UdiReader.of(currentYear).read(scan).expiresOn())
        .isEqualTo(LocalDate.of(year, 6, 1));
  }

  /** Check digits of the test suite of GS1's Syntax Engine 1.4.1. */
  @Test
  void checkDigitsAgreeWithThePublishedOnes() {
    assertThat(List.of("02345673", "416000336108", "1234567890128", "12345678901231"))
        .allMatch(Mod10::closes);
    assertThat(Mod10.closes("123456789012345675")).isTrue();
    assertThat(List.of("12345673", "416000336109", "1234567890129", "12345678901232"))
        .noneMatch(Mod10::closes);
  }

  /** HIBCC's own example: the values sum to 145, and 145 mod 43 = 16, which is G. */
  @Test
  void hibcCheckCharacterAgreesWithThePublishedOne() {
    assertThat(Mod43.of("+A123BJC5D6E71")).isEqualTo('G');
  }

  @ParameterizedTest
  @ValueSource(strings = {"^]", "<GS>", "~", "\u241D"})
  void theUsualSubstitutesStandForTheSeparator(String substitute) {
    String scan = "]d201095060001178431114123117201231101234AB" + substitute + "215678CD";
    Udi udi = READER.read(scan);
    assertThat(udi.lot()).isEqualTo("1234AB");
    assertThat(udi.serial()).isEqualTo("5678CD");
    assertThat(udi.raw()).isEqualTo(scan);
  }

  @Test
  void aClinicNamesItsOwnSubstitute() {
    String scan = "]d20109506000117843101234AB<F8>215678CD";
    assertThat(READER.read(scan).serial()).isNull();
    assertThat(new UdiReader(2026, Separators.of("<F8>")).read(scan).serial()).isEqualTo("5678CD");
  }

  @Test
  void aSubstituteThatCouldBePartOfALotIsRefused() {
    assertThatThrownBy(() -> Separators.of("F8")).hasMessageContaining("'F8'");
    assertThatThrownBy(() -> Separators.of("")).isInstanceOf(IllegalArgumentException.class);
  }

  @ParameterizedTest
  @CsvSource({
    "12345670, 00000012345670",
    "416000336108, 00416000336108",
    "1234567890128, 01234567890128",
    "12345678901231, 12345678901231"
  })
  void bareDigitsAreAProductNumber(String digits, String gtin) {
    assertThat(READER.read(digits).deviceIdentifier()).isEqualTo(gtin);
    assertThat(READER.read(digits).usable()).isTrue();
  }

  @Test
  void aLabelWhoseProductNumberIsMisreadSaysSo() {
    Udi udi = READER.read("010950600011784410LOT9");
    assertThat(udi.usable()).isFalse();
    assertThat(udi.deviceIdentifier()).isNull();
    assertThat(udi.problems()).anyMatch(p -> p.contains("should be 3"));
  }

  @Test
  void bracketsInsideALotDoNotSplitIt() {
    Udi udi = READER.read("(01)09506000117843(10)A(5)B(17)270331");
    assertThat(udi.lot()).isEqualTo("A(5)B");
    assertThat(udi.expiresOn()).isEqualTo("2027-03-31");
  }

  @Test
  void blanksBetweenThePartsOfAPrintedLabelDoNotMatter() {
    Udi udi = READER.read(" (01) 09506000117843 (17) 270331 (10) LOT9 \r\n");
    assertThat(udi.problems()).isEmpty();
    assertThat(udi.lot()).isEqualTo("LOT9");
  }

  /** Shape and escapes as the GS1 Digital Link standard (URI syntax) gives them. */
  @Test
  void readsAWebAddressThatSpellsTheLabel() {
    Udi udi =
        READER.read("]Q1https://example.org/a/01/09506000117843/10/L%2F7/21/A1?17=270200&x=1#top");
    assertThat(udi.problems()).isEmpty();
    assertThat(udi.deviceIdentifier()).isEqualTo("09506000117843");
    assertThat(udi.lot()).isEqualTo("L/7");
    assertThat(udi.serial()).isEqualTo("A1");
    assertThat(udi.expiresOn()).isEqualTo("2027-02-28");
    assertThat(READER.read("https://example.org/hello").usable()).isFalse();
  }

  @Test
  void warnsWhenADateMayHangOnTheLot() {
    Udi udi = READER.read("]d2010950600011784310LOT917270331");
    assertThat(udi.usable()).isTrue();
    assertThat(udi.problems()).singleElement().asString().contains("17 and 270331");
  }

  @Test
  void refusesWhatMayNotStandOnOneLabel() {
    assertThat(READER.read("]d201095060001178433725").usable()).isFalse();
    assertThat(READER.read("]d2010950600011784321A\u001D235B").usable()).isFalse();
  }

  @Test
  void joinsTheTwoSymbolsOfAGs1Label() {
    Udi udi = READER.readPair("]C10109506000117843", "]C11727033110LOT9");
    assertThat(udi.problems()).isEmpty();
    assertThat(udi.deviceIdentifier()).isEqualTo("09506000117843");
    assertThat(udi.lot()).isEqualTo("LOT9");
    assertThat(udi.expiresOn()).isEqualTo("2027-03-31");
  }

  @Test
  void joinsTheTwoSymbolsOfAHibcLabelByTheirLink() {
    String primary = "+A123BJC5D6E71G";
    String secondary = "+$$3270331LOT9G";
    secondary += Mod43.of(secondary);
    Udi udi = READER.readPair(primary, secondary);
    assertThat(udi.problems()).isEmpty();
    assertThat(udi.deviceIdentifier()).isEqualTo("A123BJC5D6E71");
    assertThat(udi.lot()).isEqualTo("LOT9");

    String foreign = "+$$3270331LOT9H";
    foreign += Mod43.of(foreign);
    assertThat(READER.readPair(primary, foreign).usable()).isFalse();
    assertThat(READER.readPair(secondary, primary).usable()).isFalse();
    assertThat(READER.read(secondary).problems()).anyMatch(p -> p.contains("names no product"));
  }

  /** The date forms of ANSI/HIBC 2.6, each spelling 15 January 2028 (or its month's last day). */
  @ParameterizedTest
  @CsvSource({
    "$$0128LOT9, 2028-01-31,",
    "$$2011528LOT9, 2028-01-15,",
    "$$3280115LOT9, 2028-01-15,",
    "$$428011507LOT9, 2028-01-15, 7",
    "$$528015LOT9, 2028-01-15,",
    "$$62801507LOT9, 2028-01-15, 7",
    "28015LOT9, 2028-01-15,",
    "$$7LOT9,,",
    "$LOT9,,"
  })
  void readsEveryHibcDateForm(String secondary, LocalDate expiresOn, Integer hour) {
    Udi udi = READER.read(closed("+A123BJC5D6E71/" + secondary));
    assertThat(udi.problems()).isEmpty();
    assertThat(udi.lot()).isEqualTo("LOT9");
    assertThat(udi.serial()).isNull();
    assertThat(udi.expiresOn()).isEqualTo(expiresOn);
    assertThat(udi.expiresAtHour()).isEqualTo(hour);
  }

  @Test
  void readsHibcQuantitiesAndSerialNumbers() {
    assertThat(READER.read(closed("+A123BJC5D6E71/$$8103280115LOT9")).count()).isEqualTo(10);
    assertThat(READER.read(closed("+A123BJC5D6E71/$$9012503280115LOT9")).count()).isEqualTo(1250);
    Udi serial = READER.read(closed("+A123BJC5D6E71/$$+3280115SER9"));
    assertThat(serial.serial()).isEqualTo("SER9");
    assertThat(serial.lot()).isNull();
  }

  /** About one HIBC label in 43 ends in a blank, which forms and scanners cut off. */
  @Test
  void aBlankCheckCharacterSurvivesOrIsReplacedWithAWarning() {
    String label = labelClosedBy(' ');
    assertThat(READER.read(label).problems()).isEmpty();
    assertThat(READER.read(label + " \r\n").problems()).isEmpty();
    Udi cut = READER.read(label.stripTrailing());
    assertThat(cut.usable()).isTrue();
    assertThat(cut.lot()).isEqualTo(READER.read(label).lot());
    assertThat(cut.problems()).singleElement().asString().contains("blank");
    assertThat(READER.read("*" + label.stripTrailing() + "_*").problems()).isEmpty();
  }

  @Test
  void aWrongCharacterOnAHibcLabelIsCaught() {
    String label = "+X999PAD50/$$3280229L1J";
    for (int i = 1; i < label.length(); i++) {
      char other = label.charAt(i) == '7' ? '8' : '7';
      String misread = label.substring(0, i) + other + label.substring(i + 1);
      assertThat(READER.read(misread).usable()).as(misread).isFalse();
    }
  }

  @Property(tries = 3000)
  void throwsOnNoTextAtAll(@ForAll("texts") String text, @ForAll("texts") String other) {
    Udi udi = READER.read(text);
    assertThat(udi.raw()).isEqualTo(text);
    assertThat(udi.usable() || !udi.problems().isEmpty()).isTrue();
    assertThat(udi.usable()).isEqualTo(udi.usable() && udi.deviceIdentifier() != null);
    assertThat(READER.readPair(text, other)).isNotNull();
  }

  /** Any text, and labels cut, spliced and salted. */
  @Provide
  Arbitrary<String> texts() {
    List<String> labels =
        new ArrayList<>(UdiVectorsTest.vectors().map(UdiVectorsTest.Vector::scan).toList());
    labels.add("https://example.org/01/09506000117843/10/L%2F7%?17=270200");
    Arbitrary<String> label = Arbitraries.of(labels);
    Arbitrary<String> salt =
        Arbitraries.strings()
            .withChars("\u001D]()+/$*=&,>%0123456789 ~\r\uD83D\u0130AZaz")
            .ofMaxLength(6);
    Arbitrary<Integer> cut = Arbitraries.integers().between(0, 40);
    Arbitrary<String> broken =
        Combinators.combine(label, label, salt, cut, cut)
            .as(
                (a, b, s, i, j) ->
                    a.substring(0, Math.min(i, a.length()))
                        + s
                        + b.substring(Math.min(j, b.length())));
    return Arbitraries.oneOf(Arbitraries.strings().ofMaxLength(80), broken, salt, label);
  }

  private static String closed(String body) {
    return body + Mod43.of(body);
  }

  private static String labelClosedBy(char check) {
    for (int i = 0; ; i++) {
      String label = closed("+A123BJC5D6E71/$LOT" + i);
      if (label.charAt(label.length() - 1) == check) {
        return label;
      }
    }
  }
}
