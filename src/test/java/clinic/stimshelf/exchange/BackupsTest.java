package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Browser;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

@QuarkusTest
class BackupsTest {
  @Inject Backups backups;
  @Inject Crew crew;

  @TempDir Path restored;

  @Test
  void aCopyOpensByItselfAndHoldsWhatWasEntered() throws IOException, SQLException {
    String code = Crew.unique("Backup");
    Crew.Member manager = crew.member(Roles.MANAGER, Credential.NONE, crew.location(code));
    Backups.Backup made = crew.as(manager.id(), backups::now);
    assertThat(made.name()).startsWith("asked-");
    assertThat(backups.all()).contains(made);
    unzip(backups.folder().resolve(made.name()));
    try (Connection connection =
            DriverManager.getConnection(
                "jdbc:h2:file:"
                    + restored.resolve("stimshelf").toAbsolutePath()
                    + ";MODE=PostgreSQL;DATABASE_TO_LOWER=TRUE;IFEXISTS=TRUE",
                "",
                "");
        Statement statement = connection.createStatement();
        ResultSet found =
            statement.executeQuery("select count(*) from location where code = '" + code + "'")) {
      assertThat(found.next()).isTrue();
      assertThat(found.getInt(1)).isEqualTo(1);
    }
  }

  @Test
  void twoAskedForInOneSecondAreTwoCopies() {
    Crew.Member manager =
        crew.member(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Backup")));
    Backups.Backup first = crew.as(manager.id(), backups::now);
    Backups.Backup second = crew.as(manager.id(), backups::now);
    assertThat(first.name()).isNotEqualTo(second.name());
    assertThat(backups.all()).contains(first, second);
  }

  @Test
  void theManagerMakesOneOnThePage() {
    Crew.Member manager =
        crew.withPassword(Roles.MANAGER, Credential.NONE, crew.location(Crew.unique("Backup")));
    Browser browser = Crew.signIn(manager);
    browser.form().post("/settings/backups").then().statusCode(303);
    browser
        .get()
        .get("/settings/backups")
        .then()
        .statusCode(200)
        .body(containsString("asked-"))
        .body(containsString("To go back to a copy"));
    browser.get().get("/settings").then().body(containsString("/settings/backups"));
  }

  private void unzip(Path file) throws IOException {
    try (InputStream in = java.nio.file.Files.newInputStream(file);
        ZipInputStream zip = new ZipInputStream(in)) {
      for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
        java.nio.file.Files.copy(zip, restored.resolve(Path.of(entry.getName()).getFileName()));
      }
    }
  }
}
