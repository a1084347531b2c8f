package clinic.stimshelf;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The copy of the API's description under docs/ tells what the program does. */
@QuarkusTest
class OpenApiCopyTest {
  private static final Path COPY = Path.of("docs", "openapi.yaml");

  @Test
  void the_copy_is_what_the_program_generates() throws Exception {
    String now = RestAssured.get("/q/openapi").then().statusCode(200).extract().asString();
    if (Boolean.getBoolean("stimshelf.screenshots")) {
      Files.writeString(COPY, now);
    }
    assertThat(COPY).exists();
    assertThat(Files.readString(COPY))
        .as(
            "docs/openapi.yaml; renew it with mvn test -Dtest=OpenApiCopyTest -Dstimshelf.screenshots=true")
        .isEqualTo(now);
  }
}
