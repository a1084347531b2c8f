package clinic.stimshelf.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import clinic.stimshelf.people.Muscle;
import clinic.stimshelf.people.Muscles;
import clinic.stimshelf.people.Side;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

@QuarkusTest
class HomeInstructionsTest {
  @Inject Desk desk;
  @Inject HomeWords words;
  @Inject Sketches sketches;
  @Inject Muscles muscles;

  @Test
  void saysEverythingInTheChosenLanguageAndOffersDaysToTick() {
    desk.at("2026-03-03", "09:00");
    Desk.Scene scene = desk.scene();
    Map<String, Object> body = scene.body(LocalDate.parse("2026-03-04"));
    body.put("cautions", "Keep the <b>brace</b> locked");
    String id = scene.signed(body);
    print(scene, id, "en")
        .body(containsString("lang=\"en\""))
        .body(containsString("2 sessions a day, every day, from Wednesday, March 4"))
        .body(containsString("tightens for 15 seconds and then rests for 45 seconds, 15 times"))
        .body(containsString("That takes 15 minutes"))
        .body(containsString("Wednesday, April 15"))
        .body(containsString("as your therapist showed you"))
        .body(containsString("class=\"sketch\""))
        .body(containsString("Sat Mar 14"))
        .body(containsString("Stop and call now"))
        .body(containsString("Keep the &lt;b&gt;brace&lt;/b&gt; locked"))
        .body(not(containsString("This is a draft")));
    print(scene, id, "es")
        .body(containsString("lang=\"es\""))
        .body(containsString("miércoles 4 de marzo"))
        .body(containsString("cuádriceps"))
        .body(containsString("Pare y llame de inmediato"));
  }

  @Test
  void aDraftSaysThatItIsOne() {
    desk.at("2026-03-03", "09:00");
    Desk.Scene scene = desk.scene();
    String id = scene.drafted(scene.body(LocalDate.parse("2026-03-04")));
    print(scene, id, "en").body(containsString("This is a draft"));
  }

  @Test
  void bothLanguagesTakeTheSameValues() {
    Pattern value = Pattern.compile("%(\\d)\\$s");
    for (String key : words.all("en").keySet()) {
      assertThat(values(value, words.all("es").get(key)))
          .as(key)
          .isEqualTo(values(value, words.all("en").get(key)));
    }
  }

  @Test
  void everyMuscleHasASketchOfItsOwnMirroredForTheLeft() {
    for (Muscle muscle : muscles.all()) {
      String right = sketches.of(muscle.key(), Side.RIGHT, true);
      assertThat(right).as(muscle.key()).contains("class=\"pad\"").contains("class=\"body\"");
      assertThat(sketches.of(muscle.key(), Side.LEFT, true)).contains("scale(-1 1)");
      assertThat(right).doesNotContain("scale(-1 1)").doesNotContain("style=");
    }
  }

  private static io.restassured.response.ValidatableResponse print(
      Desk.Scene scene, String id, String lang) {
    return scene
        .pt()
        .script()
        .get("/programs/" + id + "/home-instructions?lang=" + lang)
        .then()
        .statusCode(200);
  }

  private static java.util.TreeSet<String> values(Pattern value, String line) {
    java.util.TreeSet<String> found = new java.util.TreeSet<>();
    Matcher matcher = value.matcher(line);
    while (matcher.find()) {
      found.add(matcher.group(1));
    }
    return found;
  }
}
