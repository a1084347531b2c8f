package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.Properties;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the chosen version and settings of the database promise. Both promises were broken by other
 * versions (decision 2), so they are asked of the database alone, where a failure names it.
 */
class DatabaseFileTest {
  private static final int COMMITS = 30;

  @TempDir Path folder;

  private String settings;

  @BeforeEach
  void settingsOfTheProgram() throws IOException {
    Properties program = new Properties();
    try (InputStream in =
        Files.newInputStream(Path.of("src/main/resources/application.properties"))) {
      program.load(in);
    }
    String url = program.getProperty("quarkus.datasource.jdbc.url");
    settings = url.substring(url.indexOf(';'));
    assertThat(program.getProperty("%test.quarkus.datasource.jdbc.url")).endsWith(settings);
  }

  @Test
  void aFileAsAKillLeavesItHoldsEveryCommit() throws Exception {
    leaveGaps();
    try (Connection connection = open("clinic");
        Statement statement = connection.createStatement()) {
      for (int commit = 1; commit <= COMMITS; commit++) {
        statement.execute("insert into mark values (" + commit + ")");
        Files.copy(file("clinic"), file("killed"), StandardCopyOption.REPLACE_EXISTING);
        assertThat(marks("killed")).as("found after commit %d", commit).isEqualTo(commit);
      }
    }
  }

  /**
   * Leaves free space in the middle of the file, as months of work do, into which the next commits
   * are written. Old space may be used at once and is not tidied away at the end.
   */
  private void leaveGaps() throws SQLException {
    try (Connection connection = open("clinic", ";RETENTION_TIME=0;MAX_COMPACT_TIME=0");
        Statement statement = connection.createStatement()) {
      statement.execute("create table mark (id int primary key)");
      statement.execute("create table patient (id int primary key, note varchar(1000))");
      for (int i = 0; i < 500; i++) {
        statement.execute(
            "merge into patient key (id) values ("
                + i * 7919 % 100
                + ", repeat('x', "
                + (100 + i * 131 % 900)
                + "))");
      }
    }
  }

  private int marks(String name) throws SQLException {
    try (Connection connection = open(name);
        Statement statement = connection.createStatement();
        ResultSet found = statement.executeQuery("select count(*) from mark")) {
      found.next();
      return found.getInt(1);
    }
  }

  @Test
  void aQuestionAskedAgainInATransactionSeesWhatItChanged() throws SQLException {
    String question =
        "select case when exists (select 1 from loan l join unit u on u.id = l.unit_id"
            + " where u.code = 'A' and l.open) then 1 else 0 end";
    try (Connection connection = open("clinic");
        Statement statement = connection.createStatement()) {
      connection.setAutoCommit(false);
      statement.execute("create table unit (id int primary key, code varchar(9))");
      statement.execute("create table loan (id int primary key, unit_id int, open boolean)");
      statement.execute("insert into unit values (1, 'A')");
      statement.execute("insert into loan values (1, 1, true)");
      connection.commit();
      try (PreparedStatement asked = connection.prepareStatement(question)) {
        assertThat(answer(asked)).isEqualTo(1);
        statement.execute("update loan set open = false");
        assertThat(answer(asked)).isZero();
        statement.execute("update loan set open = true");
      }
      try (PreparedStatement asked = connection.prepareStatement(question)) {
        assertThat(answer(asked)).isEqualTo(1);
      }
    }
  }

  private static int answer(PreparedStatement asked) throws SQLException {
    try (ResultSet result = asked.executeQuery()) {
      result.next();
      return result.getInt(1);
    }
  }

  private Path file(String name) {
    return folder.resolve(name + ".mv.db");
  }

  private Connection open(String name) throws SQLException {
    return open(name, "");
  }

  private Connection open(String name, String more) throws SQLException {
    return DriverManager.getConnection(
        "jdbc:h2:file:" + folder.resolve(name).toAbsolutePath() + settings + more, "", "");
  }
}
