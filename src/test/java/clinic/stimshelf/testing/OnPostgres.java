package clinic.stimshelf.testing;

import io.quarkus.test.common.QuarkusTestResourceLifecycleManager;
import io.quarkus.test.junit.QuarkusTestProfile;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** Runs a test on a real PostgreSQL: the same source, built for the other database. */
public class OnPostgres implements QuarkusTestProfile {

  @Override
  public Map<String, String> getConfigOverrides() {
    return Map.of(
        "quarkus.datasource.db-kind", "postgresql",
        "quarkus.flyway.locations", "db/migration/common,db/migration/postgresql");
  }

  @Override
  public List<TestResourceEntry> testResources() {
    return List.of(
        new TestResourceEntry(Server.class), new TestResourceEntry(PostOffice.Address.class));
  }

  @Override
  public boolean disableGlobalTestResources() {
    return true;
  }

  /** A PostgreSQL server that lives as long as the tests that need it. */
  public static class Server implements QuarkusTestResourceLifecycleManager {
    private EmbeddedPostgres postgres;

    @Override
    public Map<String, String> start() {
      try {
        postgres =
            EmbeddedPostgres.builder()
                .setOverrideWorkingDirectory(Path.of("target", "postgres").toFile())
                .setServerConfig("max_connections", "100")
                .start();
      } catch (IOException e) {
        throw new IllegalStateException("PostgreSQL did not start", e);
      }
      return Map.of(
          "quarkus.datasource.jdbc.url", postgres.getJdbcUrl("postgres", "postgres"),
          "quarkus.datasource.username", "postgres",
          "quarkus.datasource.password", "postgres");
    }

    @Override
    public void stop() {
      try {
        if (postgres != null) {
          postgres.close();
        }
      } catch (IOException e) {
        throw new IllegalStateException("PostgreSQL did not stop", e);
      }
    }
  }
}
