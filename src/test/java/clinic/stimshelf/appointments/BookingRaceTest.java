package clinic.stimshelf.appointments;

import io.quarkus.test.junit.QuarkusTest;

/** On H2, as the clinic runs it. */
@QuarkusTest
class BookingRaceTest extends BookingRace {}
