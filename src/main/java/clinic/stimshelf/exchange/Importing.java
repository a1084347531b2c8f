package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.location.Locations;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * Enters files, all or nothing: one transaction, kept only if no row has a fault. A preview is the
 * same run, taken back at its end.
 */
@ApplicationScoped
class Importing {
  private static final int LONGEST_SECONDS = 3600;

  @Inject Locations locations;
  @Inject EntityManager database;
  @Inject Clock clock;
  @Inject SignedIn signedIn;

  /** Hears how far a run is. */
  interface Progress {
    Progress NONE = (what, done, of) -> {};

    void at(String what, long done, long of);
  }

  /**
   * How a run is made.
   *
   * @param by in whose name; {@code null} for the program itself, which may act everywhere
   */
  record Manner(boolean keep, boolean demo, Long by) {}

  /** A file with the format that reads it. */
  record Task(FileFormat format, SourceFile file) {}

  Outcome run(List<Task> tasks, Manner manner, Progress progress) {
    try {
      return QuarkusTransaction.requiringNew()
          .timeout(LONGEST_SECONDS)
          .call(
              () -> {
                Outcome outcome = inTransaction(tasks, manner, progress);
                if (!manner.keep() || !outcome.ok()) {
                  throw new TakenBack(outcome);
                }
                return outcome;
              });
    } catch (TakenBack nothingKept) {
      return nothingKept.outcome;
    }
  }

  /** Ends the transaction of a preview, or of a run with faults, without a trace. */
  private static final class TakenBack extends RuntimeException {
    private final transient Outcome outcome;

    TakenBack(Outcome outcome) {
      super(null, null, false, false);
      this.outcome = outcome;
    }
  }

  /** The run itself, in a transaction that somebody else ends. */
  Outcome inTransaction(List<Task> tasks, Manner manner, Progress progress) {
    List<Brought> brought = new ArrayList<>();
    Set<String> toCome = new HashSet<>();
    for (Task task : tasks) {
      List<Fault> faults = new ArrayList<>();
      try {
        brought.add(
            manner.by() == null
                ? file(task, manner, null, toCome, progress, faults)
                // Anew for each file: the one before may have brought a location of theirs.
                : signedIn.actAs(
                    manner.by(),
                    () ->
                        file(
                            task,
                            manner,
                            new HashSet<>(signedIn.locationIds()),
                            toCome,
                            progress,
                            faults)));
      } catch (CsvText.Unreadable unreadable) {
        faults.add(unreadable.fault);
      }
      if (!faults.isEmpty()) {
        // What points at this file's rows would only name faults that are none.
        return new Outcome(brought, faults);
      }
    }
    return new Outcome(brought, List.of());
  }

  private Brought file(
      Task task,
      Manner manner,
      Set<Long> mine,
      Set<String> toCome,
      Progress progress,
      List<Fault> faults) {
    Reading reading =
        new Reading(locations, new Keys(database, toCome), clock.instant(), manner.demo(), mine);
    return new FileRun(database, task, reading, progress, faults).run();
  }
}
