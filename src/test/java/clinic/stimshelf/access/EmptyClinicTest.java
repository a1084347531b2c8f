package clinic.stimshelf.access;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.testing.Routes;
import clinic.stimshelf.testing.Routes.Route;
import clinic.stimshelf.web.Roles;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** A clinic on its first day: nothing is there, and every page says how to begin. */
@QuarkusTest
class EmptyClinicTest {
  private static final Map<String, Credential> WHO =
      Map.of(
          Roles.FRONT_DESK, Credential.NONE,
          Roles.THERAPIST, Credential.PT,
          Roles.MANAGER, Credential.NONE);

  /** What a person opens with something chosen, so that there is no such page by itself. */
  private static final Set<String> NEED_A_CHOICE =
      Set.of(
          "/programs/new",
          "/programs/outlook",
          "/check-out",
          "/check-in",
          "/loans/agreement",
          "/requests/new");

  @Inject Crew crew;
  @Inject EntityManager database;

  /** So it stands for the first manager of one's own clinic. */
  @Test
  void everyPageOpensForAManagerWhoHasNoLocationYet() {
    Long location = crew.location(Crew.unique("Bare"));
    Crew.Member manager = crew.withPassword(Roles.MANAGER, Credential.NONE, location);
    QuarkusTransaction.requiringNew()
        .run(
            () ->
                database
                    .createNativeQuery("delete from staff_location where staff_id = ?1")
                    .setParameter(1, manager.id())
                    .executeUpdate());
    assertThat(notOpened(Roles.MANAGER, manager)).isEmpty();
    assertThat(Crew.signIn(manager).get().get("/units").asString()).contains("/your-clinic");
  }

  @Test
  void everyPageOpensWhereALocationHasNothingYet() {
    Long location = crew.location(Crew.unique("Bare"));
    for (String role : WHO.keySet()) {
      Crew.Member member = crew.withPassword(role, WHO.get(role), location);
      assertThat(notOpened(role, member)).isEmpty();
    }
  }

  private List<String> notOpened(String role, Crew.Member member) {
    Crew.Browser browser = Crew.signIn(member);
    List<String> wrong = new ArrayList<>();
    for (Route route : Routes.all()) {
      if (route.method().equals("GET")
          && !route.isApi()
          && !route.path().contains("{")
          && route.roles().contains(role)
          && !NEED_A_CHOICE.contains(route.path())) {
        Response answer = browser.get().get(route.path());
        boolean page = answer.statusCode() == 200 && answer.asString().contains("<h1");
        boolean file = answer.statusCode() == 200 && !answer.contentType().contains("html");
        boolean leads = answer.statusCode() / 100 == 3;
        if (!page && !file && !leads) {
          wrong.add(role + " " + route + " answers " + answer.statusCode());
        }
      }
    }
    return wrong;
  }
}
