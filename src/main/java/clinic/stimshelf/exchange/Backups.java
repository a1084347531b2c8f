package clinic.stimshelf.exchange;

import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.Refusal;
import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.transaction.Transactional;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.hibernate.Session;
import org.jboss.logging.Logger;

/**
 * Whole copies of the database file, made while people work on. For H2 only: a database on a server
 * is backed up where it stands.
 */
@ApplicationScoped
class Backups {
  private static final Logger LOG = Logger.getLogger(Backups.class);
  private static final DateTimeFormatter STAMP =
      DateTimeFormatter.ofPattern("yyyy-MM-dd-HHmmss").withZone(ZoneOffset.UTC);
  private static final Pattern DAILY = Pattern.compile("daily-.*\\.zip");
  private static final Pattern NAME = Pattern.compile("(daily|asked)-[a-z0-9-]+\\.zip");

  @Inject EntityManager database;
  @Inject Clock clock;
  @Inject Trail trail;
  @Inject EventTimes times;

  @ConfigProperty(name = "stimshelf.data", defaultValue = "data")
  String data;

  @ConfigProperty(name = ChosenClinic.CLINIC, defaultValue = "demo")
  String clinic;

  @ConfigProperty(name = "quarkus.datasource.db-kind")
  String kind;

  /** How many daily copies are kept; older ones go. */
  @ConfigProperty(name = "stimshelf.backups.keep", defaultValue = "30")
  int keep;

  /** A copy. */
  record Backup(String name, Instant madeAt, long bytes) {}

  boolean possible() {
    return kind.equals("h2");
  }

  Path folder() {
    return Path.of(data, "backups").toAbsolutePath().normalize();
  }

  @Scheduled(cron = "{stimshelf.backups.cron:0 30 2 * * ?}")
  void daily() {
    if (possible()) {
      Backup made = make("daily");
      LOG.infof("Backup %s, %d kB", made.name(), made.bytes() / 1024);
      forgetOld();
    }
  }

  /** Makes a copy because somebody asked for it. */
  @Transactional
  Backup now() {
    if (!possible()) {
      throw new Refusal(
          null,
          "This clinic's database stands on a server.",
          "Back it up with that server's tools.");
    }
    Backup made = make("asked");
    trail.record(
        Subject.of("backup", made.name()),
        "made",
        times.now(),
        null,
        Map.of("bytes", made.bytes()));
    return made;
  }

  /** The copies there are, newest first. */
  List<Backup> all() {
    if (!Files.isDirectory(folder())) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder())) {
      return files
          .filter(file -> NAME.matcher(file.getFileName().toString()).matches())
          .map(Backups::view)
          .sorted(Comparator.comparing(Backup::madeAt).reversed())
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Transactional
  synchronized Backup make(String why) {
    Path file = free(why + "-" + clinic + "-" + STAMP.format(clock.instant()));
    Path growing = folder().resolve("." + file.getFileName());
    try {
      Files.createDirectories(folder());
      database
          .unwrap(Session.class)
          .doWork(
              connection -> {
                try (Statement statement = connection.createStatement()) {
                  statement.execute("backup to '" + growing.toString().replace("'", "''") + "'");
                }
              });
      // Under its name only when it is whole: a stop in the middle leaves no half a backup.
      Files.move(growing, file);
      return view(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Two people may ask within one second: the second copy gets a number, neither is lost. */
  private Path free(String name) {
    Path file = folder().resolve(name + ".zip");
    for (int number = 2; Files.exists(file); number++) {
      file = folder().resolve(name + "-" + number + ".zip");
    }
    return file;
  }

  private void forgetOld() {
    all().stream()
        .filter(backup -> DAILY.matcher(backup.name()).matches())
        .skip(keep)
        .forEach(
            old -> {
              try {
                Files.deleteIfExists(folder().resolve(old.name()));
              } catch (IOException e) {
                LOG.warnf("The old backup %s stays: %s", old.name(), e.getMessage());
              }
            });
  }

  private static Backup view(Path file) {
    try {
      return new Backup(
          file.getFileName().toString(),
          Files.getLastModifiedTime(file).toInstant(),
          Files.size(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
