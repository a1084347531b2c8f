package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Crew.Member;
import clinic.stimshelf.testing.Routes;
import clinic.stimshelf.testing.Routes.Route;
import clinic.stimshelf.web.Roles;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/** No page or call that reads changes anything: OWASP ASVS 5.0, 3.5.3. */
@QuarkusTest
class ReadingChangesNothingTest {
  @Inject Crew crew;
  @Inject EntityManager entities;

  @Test
  void readingEveryPageAndCallLeavesTheDatabaseAsItIs() {
    Long place = crew.location(Crew.unique("Read"));
    List<Member> members =
        List.of(
            crew.member(Roles.FRONT_DESK, Credential.NONE, place),
            crew.member(Roles.THERAPIST, Credential.PT, place),
            crew.member(Roles.MANAGER, Credential.NONE, place));
    // When a key was last used is noted, by the hour.
    members.forEach(member -> member.script().get("/api/me"));
    Map<String, Integer> before = fingerprints();
    for (Member member : members) {
      for (Route route : Routes.all()) {
        // What is taken out of the clinic leaves a line in the trail, on purpose.
        if (route.reads() && !route.concrete().startsWith("/api/exports/")) {
          member.script().request("GET", route.concrete());
          member.script().request("HEAD", route.concrete());
        }
      }
    }
    assertThat(fingerprints()).isEqualTo(before);
  }

  /**
   * Rows of every table, each as its own hash; the order in which they are found does not count.
   */
  private Map<String, Integer> fingerprints() {
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              Map<String, Integer> prints = new TreeMap<>();
              for (Object table :
                  entities
                      .createNativeQuery(
                          // But for one thing: a link that opens nothing is counted as a guess.
                          "select table_name from information_schema.tables where table_schema ="
                              + " 'public' and table_name <> 'failed_sign_in'")
                      .getResultList()) {
                int print = 0;
                for (Object row :
                    entities.createNativeQuery("select * from " + table).getResultList()) {
                  print +=
                      row instanceof Object[] cells ? hash(cells) : String.valueOf(row).hashCode();
                }
                prints.put(table.toString(), print);
              }
              return prints;
            });
  }

  private static int hash(Object[] cells) {
    StringBuilder row = new StringBuilder();
    for (Object cell : cells) {
      row.append(cell instanceof java.sql.Clob clob ? text(clob) : cell).append('|');
    }
    return row.toString().hashCode();
  }

  private static String text(java.sql.Clob clob) {
    try {
      return clob.getSubString(1, (int) clob.length());
    } catch (java.sql.SQLException e) {
      throw new IllegalStateException(e);
    }
  }
}
