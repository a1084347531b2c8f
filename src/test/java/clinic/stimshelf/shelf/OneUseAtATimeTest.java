package clinic.stimshelf.shelf;

import io.quarkus.test.junit.QuarkusTest;

/** On H2, as the clinic runs it. */
@QuarkusTest
class OneUseAtATimeTest extends OneUseAtATime {}
