package clinic.stimshelf.exchange;

import clinic.stimshelf.access.Staff;
import clinic.stimshelf.location.ClosureView;
import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import java.io.PrintStream;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.jboss.logging.Logger;

/** Fills the demo clinic at its first start; its days are counted from then. */
@ApplicationScoped
class Demo {
  private static final Logger LOG = Logger.getLogger(Demo.class);
  private static final int LONGEST_SECONDS = 600;
  private static final int MONTHS_BACK = 20;
  private static final int MONTHS_AHEAD = 15;

  @Inject Importing importing;
  @Inject SeedFiles seed;
  @Inject Locations locations;
  @Inject Staff staff;
  @Inject Holidays holidays;
  @Inject Clock clock;

  @ConfigProperty(name = ChosenClinic.DEMO, defaultValue = "false")
  boolean demo;

  @ActivateRequestContext
  void start(@Observes @Priority(6000) StartupEvent started) {
    if (demo && locations.all().isEmpty()) {
      if (seed.inOrder().isEmpty()) {
        LOG.warn("There are no files for a demo, neither in seed/ nor packed: it stays empty.");
        staff.addDemoAccounts();
        return;
      }
      load(System.out);
    }
  }

  private void load(PrintStream console) {
    long from = clock.millis();
    console.println("First start: the demo clinic is being set up.");
    QuarkusTransaction.requiringNew()
        .timeout(LONGEST_SECONDS)
        .run(
            () -> {
              fill(
                  (what, done, of) -> {
                    if (done == of) {
                      console.printf("  %,7d %s%n", done, what);
                    }
                  });
              staff.addDemoAccounts();
            });
    console.printf(
        "The demo is ready after %d s: sign in as frontdesk, therapist or manager, each with the"
            + " password %s.%n",
        Duration.ofMillis(clock.millis() - from).toSeconds(), Staff.DEMO_PASSWORD);
  }

  /**
   * Enters everything of the demo in the running transaction.
   *
   * @throws IllegalStateException if a file has a fault; it names the first ones
   */
  void fill(Importing.Progress progress) {
    List<Importing.Task> tasks = new ArrayList<>(seed.inOrder());
    Importing.Manner manner = new Importing.Manner(true, true, null);
    if (tasks.isEmpty()) {
      throw new IllegalStateException(
          "There are no files for a demo, neither in seed/ nor packed.");
    }
    Set<Long> before = places().collect(Collectors.toSet());
    check(importing.inTransaction(tasks.subList(0, 1), manner, progress));
    closeOnHolidays(places().filter(place -> !before.contains(place)).toList());
    check(importing.inTransaction(tasks.subList(1, tasks.size()), manner, progress));
  }

  private Stream<Long> places() {
    return locations.all().stream().map(LocationView::id);
  }

  private void closeOnHolidays(List<Long> places) {
    LocalDate today = LocalDate.ofInstant(clock.instant(), java.time.ZoneOffset.UTC);
    List<Holidays.Proposed> days =
        holidays.between(today.minusMonths(MONTHS_BACK), today.plusMonths(MONTHS_AHEAD));
    for (Long place : places) {
      days.forEach(
          day -> locations.close(place, new ClosureView(day.day(), null, null, day.name())));
    }
  }

  private static void check(Outcome outcome) {
    if (!outcome.ok()) {
      throw new IllegalStateException(
          "The demo has "
              + outcome.faults().size()
              + " faults: "
              + String.join("\n", outcome.faults().stream().limit(20).map(Fault::words).toList()));
    }
  }
}
