package clinic.stimshelf.remind;

import io.quarkus.test.junit.QuarkusTest;

/** On H2, with threads for nodes. */
@QuarkusTest
class TwoNodesTest extends TwoNodes {}
