package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.audit.EventTimes;
import clinic.stimshelf.audit.Subject;
import clinic.stimshelf.audit.Trail;
import clinic.stimshelf.web.NotFound;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Refusals;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.annotation.PreDestroy;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.jboss.logging.Logger;

/**
 * Imports as jobs of their own: a preview, then, when somebody says so, the same run kept. One at a
 * time, so that two never wait for each other's rows.
 */
@ApplicationScoped
class ImportRuns {
  private static final Logger LOG = Logger.getLogger(ImportRuns.class);
  private static final Duration SILENT = Duration.ofMinutes(2);
  private static final Duration KEPT = Duration.ofHours(24);
  private static final Duration TELLING = Duration.ofMillis(500);
  private static final int MOST_FILES = 40;

  @Inject ImportRunRows runs;
  @Inject ImportFiles files;
  @Inject Importing importing;
  @Inject ImportWorker worker;
  @Inject Formats formats;
  @Inject SignedIn signedIn;
  @Inject Trail trail;
  @Inject EventTimes times;
  @Inject Clock clock;
  @Inject ObjectMapper json;

  private final ExecutorService one =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread thread = new Thread(work, "import");
            thread.setDaemon(true);
            return thread;
          });

  @PreDestroy
  void stop() {
    one.shutdownNow();
  }

  /**
   * Begins a preview.
   *
   * @param what the kind of every file; {@code null} where each file's name says it
   * @return number of the run
   * @throws Refusal if a file's kind is not known or the same kind comes twice
   */
  Long preview(List<SourceFile> sources, String what) {
    Long id = QuarkusTransaction.joiningExisting().call(() -> store(sources, what));
    start(id, false);
    return id;
  }

  /**
   * Enters what a preview found in order.
   *
   * @throws Refusal if there is no such preview
   */
  Future<?> enter(Long id) {
    QuarkusTransaction.joiningExisting()
        .run(
            () -> {
              ImportRun run = mine(id);
              if (run.state != RunState.CHECKED) {
                throw new Refusal(
                    null,
                    "Only a preview without faults can be entered; this one is “"
                        + run.state.word()
                        + "”.",
                    "Hand the files over again.");
              }
              run.state = RunState.ENTERING;
              run.rowsDone = 0;
              run.heardAt = clock.instant();
            });
    return start(id, true);
  }

  /** Previews and, if nothing is wrong and it is to be kept, enters; waits until it is done. */
  ImportView runNow(List<SourceFile> sources, String what, boolean keep) {
    Long id = QuarkusTransaction.joiningExisting().call(() -> store(sources, what));
    if (keep) {
      QuarkusTransaction.joiningExisting().run(() -> runs.findById(id).state = RunState.ENTERING);
    }
    await(start(id, keep));
    return QuarkusTransaction.requiringNew().call(() -> view(id));
  }

  @Transactional
  ImportView view(Long id) {
    return view(mine(id));
  }

  /** The runs of the last day, newest first. */
  @Transactional
  List<ImportView> recent() {
    return runs.find("startedBy = ?1 order by id desc", signedIn.staffId()).page(0, 20).stream()
        .map(this::view)
        .toList();
  }

  /** Takes away what is older than a day: files hold patients' data. */
  @Transactional
  void forgetOld() {
    Instant before = clock.instant().minus(KEPT);
    files.delete("runId in (select r.id from ImportRun r where r.madeAt < ?1)", before);
    runs.delete("madeAt < ?1", before);
  }

  private Long store(List<SourceFile> sources, String what) {
    List<FileFormat> kinds = kinds(sources, what);
    ImportRun run = new ImportRun();
    run.state = RunState.CHECKING;
    run.startedBy = signedIn.staffId();
    run.starterName = signedIn.name();
    run.madeAt = clock.instant();
    run.heardAt = run.madeAt;
    runs.persist(run);
    for (int i = 0; i < sources.size(); i++) {
      ImportFile file = new ImportFile();
      file.runId = run.id;
      file.position = kinds.get(i).order();
      file.what = kinds.get(i).what();
      file.fileName = shortened(sources.get(i).name());
      file.content = Base64.getEncoder().encodeToString(sources.get(i).bytes());
      files.persist(file);
    }
    return run.id;
  }

  private List<FileFormat> kinds(List<SourceFile> sources, String what) {
    Refusals refusals = new Refusals();
    if (sources.isEmpty()) {
      refusals.add("files", "No file was handed over.", "Choose one or several CSV files.");
    }
    if (sources.size() > MOST_FILES) {
      refusals.add("files", "At most " + MOST_FILES + " files at once.");
    }
    String all = String.join(", ", formats.inOrder().stream().map(FileFormat::what).toList());
    List<FileFormat> kinds = new ArrayList<>();
    Set<String> once = new HashSet<>();
    for (SourceFile source : sources) {
      String kind = what == null || what.isBlank() ? source.stem() : what.strip();
      FileFormat format = formats.find(kind).orElse(null);
      if (format == null) {
        refusals.add(
            "files",
            "“" + source.name() + "” does not say what it holds.",
            "Name it after its kind, such as patients.csv, or choose the kind. There are: "
                + all
                + ".");
      } else if (!once.add(format.what())) {
        refusals.add("files", "Two files hold " + format.what() + ".", "Hand them over in turn.");
      }
      kinds.add(format);
    }
    refusals.throwIfAny();
    return kinds;
  }

  private static String shortened(String name) {
    String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    return last.isBlank() ? "file.csv" : last.substring(0, Math.min(last.length(), 200));
  }

  private Future<?> start(Long id, boolean keep) {
    return one.submit(() -> worker.work(() -> work(id, keep)));
  }

  private void work(Long id, boolean keep) {
    try {
      Start start = QuarkusTransaction.requiringNew().call(() -> begin(id));
      Outcome outcome =
          importing.run(start.tasks, new Importing.Manner(keep, false, start.by), telling(id));
      QuarkusTransaction.requiringNew().run(() -> end(id, keep, outcome));
    } catch (RuntimeException broken) {
      LOG.errorf(broken, "Import %d broke; nothing was entered", id);
      QuarkusTransaction.requiringNew()
          .run(() -> runs.update("state = ?1 where id = ?2", RunState.BROKEN, id));
    }
  }

  private record Start(Long by, List<Importing.Task> tasks) {}

  private Start begin(Long id) {
    ImportRun run = runs.findById(id);
    List<Importing.Task> tasks =
        files.list("runId", id).stream()
            .sorted(Comparator.comparingInt(file -> file.position))
            .map(
                file ->
                    new Importing.Task(
                        formats.byName(file.what),
                        new SourceFile(file.fileName, Base64.getDecoder().decode(file.content))))
            .toList();
    return new Start(run.startedBy, tasks);
  }

  /** Says now and then how far the run is, outside of the run's own transaction. */
  private Importing.Progress telling(Long id) {
    Instant[] told = {Instant.EPOCH};
    return (what, done, of) -> {
      Instant now = clock.instant();
      if (done > 0 && Duration.between(told[0], now).abs().compareTo(TELLING) < 0) {
        return;
      }
      told[0] = now;
      QuarkusTransaction.requiringNew()
          .run(
              () ->
                  runs.update(
                      "nowReading = ?1, rowsDone = ?2, rowsOf = ?3, heardAt = ?4 where id = ?5",
                      what,
                      done,
                      of,
                      now,
                      id));
    };
  }

  private void end(Long id, boolean keep, Outcome outcome) {
    ImportRun run = runs.findById(id);
    run.state = !outcome.ok() ? RunState.FAULTY : keep ? RunState.DONE : RunState.CHECKED;
    run.nowReading = null;
    run.outcomeJson = write(outcome);
    run.heardAt = clock.instant();
    if (run.state != RunState.CHECKED) {
      files.delete("runId", id);
    }
    if (run.state == RunState.DONE) {
      trail.record(
          Subject.of("import", id),
          "imported for " + run.starterName,
          times.now(),
          null,
          Map.of("files", outcome.files()));
    }
  }

  private ImportRun mine(Long id) {
    ImportRun run = id == null ? null : runs.findById(id);
    if (run == null
        || (run.startedBy != null
            && signedIn.anybody()
            && !run.startedBy.equals(signedIn.staffId()))) {
      throw new NotFound("There is no such import of yours.");
    }
    return run;
  }

  private ImportView view(ImportRun run) {
    Outcome outcome = read(run.outcomeJson);
    boolean silent = run.state.running() && run.heardAt.plus(SILENT).isBefore(clock.instant());
    return new ImportView(
        String.valueOf(run.id),
        silent ? RunState.BROKEN : run.state,
        run.starterName,
        run.madeAt,
        run.nowReading,
        run.rowsDone,
        run.rowsOf,
        outcome.files(),
        outcome.faults());
  }

  private String write(Outcome outcome) {
    try {
      return json.writeValueAsString(outcome);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("An outcome cannot be written", e);
    }
  }

  private Outcome read(String text) {
    try {
      return text == null ? new Outcome(List.of(), List.of()) : json.readValue(text, Outcome.class);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("An outcome does not read back", e);
    }
  }

  private static void await(Future<?> work) {
    try {
      work.get();
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("Stopped while waiting for an import", interrupted);
    } catch (ExecutionException broken) {
      throw new IllegalStateException("An import broke", broken.getCause());
    }
  }

  /** Gives a job's thread the context that a call from outside would have. */
  @ApplicationScoped
  static class ImportWorker {
    @ActivateRequestContext
    void work(Runnable work) {
      work.run();
    }
  }
}
