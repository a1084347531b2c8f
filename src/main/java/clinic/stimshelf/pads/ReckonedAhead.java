package clinic.stimshelf.pads;

import clinic.stimshelf.location.LocationView;
import clinic.stimshelf.location.Locations;
import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.util.List;
import org.jboss.logging.Logger;

/**
 * Reckons every location's orders before somebody asks: a day's first look at ten locations would
 * otherwise lay out eighty distributions anew. Where nothing changed it costs a few questions to
 * the database.
 */
@ApplicationScoped
class ReckonedAhead {
  private static final Logger LOG = Logger.getLogger(ReckonedAhead.class);

  @Inject Reorders reorders;
  @Inject Locations locations;

  @Scheduled(
      every = "10m",
      delayed = "20s",
      identity = "orders-reckoned-ahead",
      concurrentExecution = Scheduled.ConcurrentExecution.SKIP)
  @ActivateRequestContext
  void everywhere() {
    List<Long> places = locations.all().stream().map(LocationView::id).toList();
    for (Long place : places) {
      try {
        reorders.all(place);
      } catch (RuntimeException failed) {
        // The page will say what is wrong; the others are reckoned all the same.
        LOG.warnf("Orders of location %d: %s", place, failed.getClass().getSimpleName());
      }
    }
  }
}
