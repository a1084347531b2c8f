package clinic.stimshelf.exchange;

import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import javax.sql.DataSource;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logging.Logger;

/**
 * Sends what was written on to the disk itself, every second in which something was. Without it a
 * commit survives the end of the program, but not a power cut.
 */
@ApplicationScoped
class Checkpoints {
  private static final Logger LOG = Logger.getLogger(Checkpoints.class);
  private static final String VERSION =
      "select setting_value from information_schema.settings"
          + " where setting_name = 'info.CURRENT_VERSION'";

  @Inject DataSource source;

  @ConfigProperty(name = "quarkus.datasource.db-kind")
  String kind;

  private String synced = "";

  @Scheduled(every = "1s", concurrentExecution = Scheduled.ConcurrentExecution.SKIP)
  void everySecond() {
    sync();
  }

  /** Whether anything was written since the last time. */
  boolean sync() {
    if (!kind.equals("h2")) {
      return false;
    }
    try (Connection connection = source.getConnection();
        Statement statement = connection.createStatement()) {
      if (version(statement).equals(synced)) {
        return false;
      }
      String written = version(statement);
      force(statement);
      synced = written;
      return true;
    } catch (SQLException | IOException e) {
      LOG.warnf("The disk did not confirm what was written: %s", e.getMessage());
      return false;
    }
  }

  /** Has the disk confirm the file. Not by CHECKPOINT SYNC, which also compacts it (decision 2). */
  private static void force(Statement statement) throws SQLException, IOException {
    try (ResultSet path = statement.executeQuery("call database_path()")) {
      if (path.next()) {
        try (FileChannel file =
            FileChannel.open(Path.of(path.getString(1) + ".mv.db"), StandardOpenOption.READ)) {
          file.force(true);
        }
      }
    }
  }

  /** A number of the store that rises with everything written. */
  private static String version(Statement statement) throws SQLException {
    try (ResultSet result = statement.executeQuery(VERSION)) {
      return result.next() ? result.getString(1) : "";
    }
  }
}
