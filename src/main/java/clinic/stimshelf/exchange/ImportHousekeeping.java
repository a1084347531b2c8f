package clinic.stimshelf.exchange;

import io.quarkus.scheduler.Scheduled;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;

/** Takes away what imports have left behind. */
@ApplicationScoped
class ImportHousekeeping {
  @Inject ImportRuns runs;

  @Scheduled(every = "1h", delayed = "5m")
  void forgetOld() {
    runs.forgetOld();
  }
}
