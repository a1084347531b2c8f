package clinic.stimshelf.loans;

import io.quarkus.test.junit.QuarkusTest;

/** On H2, as the clinic runs it. */
@QuarkusTest
class CheckOutRaceTest extends CheckOutRace {}
