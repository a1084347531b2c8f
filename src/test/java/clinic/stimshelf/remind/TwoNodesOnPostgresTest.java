package clinic.stimshelf.remind;

import clinic.stimshelf.testing.OnPostgres;
import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.TestProfile;

/** On a real PostgreSQL, as several nodes run it. */
@QuarkusTest
@TestProfile(OnPostgres.class)
class TwoNodesOnPostgresTest extends TwoNodes {}
