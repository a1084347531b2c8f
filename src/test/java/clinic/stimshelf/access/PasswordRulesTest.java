package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.web.Refusals;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** NIST SP 800-63B-4, section on passwords, and OWASP ASVS 5.0, 6.2.x. */
class PasswordRulesTest {
  private static final List<String> NEAR =
      List.of("manager.one", "Rosalind", "Quarry", "Harbor Street Therapy", Staff.DEMO_PASSWORD);

  private static List<String> against(String password) {
    Refusals refusals = new Refusals();
    PasswordRules.check("password", password, NEAR, refusals);
    return refusals.reasons().stream().map(reason -> reason.message()).toList();
  }

  @Test
  void takesFifteenCharactersAndNotFourteen() {
    assertThat(against("seven ferns al")).hasSize(1);
    assertThat(against("seven ferns alo")).isEmpty();
  }

  @Test
  void takesOneHundredTwentyEightCharactersAndNotOneMore() {
    String long128 = "seven ferns along a quiet canal ".repeat(4);
    assertThat(long128).hasSize(128);
    assertThat(against(long128)).isEmpty();
    assertThat(against(long128 + "!")).hasSize(1);
  }

  @Test
  void countsCharactersNotBytesOrHalves() {
    assertThat(against("🌿🍃🌱🌾🎋🍀🌵🌴🌳🌲🌰🍁🍂🍄")).as("14 signs").hasSize(1);
    assertThat(against("🌿🍃🌱🌾🎋🍀🌵🌴🌳🌲🌰🍁🍂🍄🌸")).as("15 signs").isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "seven ferns along a quiet canal",
        "SEVENFERNSALONGAQUIETCANAL",
        "8402759136481750263",
        "     a lot of air     ",
        "sieben Farne am stillen Kanal äöü"
      })
  void asksForNoParticularKindsOfCharacters(String password) {
    assertThat(against(password)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "password12345678",
        "Password1234567!",
        "passwordpassword",
        "qwertyuiopasdfghjkl",
        "123456789012345",
        "aaaaaaaaaaaaaaaaaa",
        "abababababababab",
        "iloveyouiloveyou",
        "correct horse battery staple",
        "demo-clinic-only",
        "Demo-Clinic-Only1",
        "manager.one2026!",
        "RosalindQuarry1!",
        "harborstreettherapy"
      })
  void refusesWhatIsTriedFirst(String password) {
    assertThat(against(password)).hasSize(1);
  }

  @Property(tries = 200)
  void aPatternTypedOverAndOverIsRefused(
      @ForAll @StringLength(min = 1, max = 5) @CharRange(from = '!', to = '~') String unit) {
    assertThat(against(unit.repeat(20).substring(0, 20))).hasSize(1);
  }
}
