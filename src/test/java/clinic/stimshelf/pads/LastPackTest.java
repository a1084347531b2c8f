package clinic.stimshelf.pads;

import io.quarkus.test.junit.QuarkusTest;

/** On H2, as the clinic runs it. */
@QuarkusTest
class LastPackTest extends LastPack {}
