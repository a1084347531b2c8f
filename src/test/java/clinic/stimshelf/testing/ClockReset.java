package clinic.stimshelf.testing;

import io.quarkus.arc.Arc;
import io.quarkus.test.junit.callback.QuarkusTestAfterEachCallback;
import io.quarkus.test.junit.callback.QuarkusTestMethodContext;

/** No test leaves its time to the next. */
public class ClockReset implements QuarkusTestAfterEachCallback {
  @Override
  public void afterEach(QuarkusTestMethodContext context) {
    if (Arc.container() != null && Arc.container().instance(MutableClock.class).isAvailable()) {
      Arc.container().instance(MutableClock.class).get().reset();
    }
  }
}
