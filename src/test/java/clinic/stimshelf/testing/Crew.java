package clinic.stimshelf.testing;

import clinic.stimshelf.access.AccessKeys;
import clinic.stimshelf.access.Accounts;
import clinic.stimshelf.access.Credential;
import clinic.stimshelf.access.NewStaff;
import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.access.Staff;
import clinic.stimshelf.location.DayHours;
import clinic.stimshelf.location.Locations;
import clinic.stimshelf.location.NewLocation;
import io.quarkus.narayana.jta.QuarkusTransaction;
import io.restassured.RestAssured;
import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.time.DayOfWeek;
import java.time.LocalTime;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;

/** Locations and staff for tests, each under a name of its own. */
@ApplicationScoped
public class Crew {
  /** Fits the rules and belongs to nobody outside of these tests. */
  public static final String PASSWORD = "seven ferns along a quiet canal";

  private static final AtomicInteger NUMBER = new AtomicInteger();

  @Inject Locations locations;
  @Inject Staff staff;
  @Inject Accounts accounts;
  @Inject AccessKeys keys;
  @Inject SignedIn signedIn;

  /** A staff member with an access key. */
  public record Member(Long id, String username, String role, String key) {

    /** Calls of a script in this person's name. */
    public RequestSpecification script() {
      return RestAssured.given().header("Authorization", "Bearer " + key).redirects().follow(false);
    }
  }

  /** A browser somebody is signed in with: its cookie and what its forms send back. */
  public record Browser(String cookie, String csrf) {

    public RequestSpecification get() {
      return RestAssured.given().cookie("stimshelf", cookie).redirects().follow(false);
    }

    /** A form of one of our own pages. */
    public RequestSpecification form() {
      return get()
          .contentType("application/x-www-form-urlencoded; charset=UTF-8")
          .formParam("csrf", csrf);
    }
  }

  /** A part of a name that no other test uses. */
  public static String unique(String stem) {
    return stem + NUMBER.incrementAndGet();
  }

  /** A location open on weekdays from 8 to 18 o'clock in New York. */
  @ActivateRequestContext
  public Long location(String code) {
    Map<DayOfWeek, List<DayHours>> hours = new EnumMap<>(DayOfWeek.class);
    for (DayOfWeek day : DayOfWeek.values()) {
      if (day.getValue() <= 5) {
        hours.put(day, List.of(new DayHours(LocalTime.of(8, 0), LocalTime.of(18, 0))));
      }
    }
    return locations.add(
        new NewLocation(
            code, "Location " + code, "America/New_York", null, null, null, null, hours, Map.of()));
  }

  /** A staff member of the locations, without an account to sign in with. */
  @ActivateRequestContext
  public Member member(String role, Credential credential, Long... locationIds) {
    String ref = unique("s");
    List<Long> where = Arrays.asList(locationIds);
    Long id =
        staff.add(
            new NewStaff(ref, "Person " + ref, null, credential, null, null, role, ref, where));
    String key = as(id, () -> keys.make("test", role, where).secret());
    return new Member(id, ref, role, key);
  }

  /** The same with {@link #PASSWORD}. */
  @ActivateRequestContext
  public Member withPassword(String role, Credential credential, Long... locationIds) {
    Member member = member(role, credential, locationIds);
    accounts.setPassword(accounts.newCode(member.id()), PASSWORD);
    return member;
  }

  /** Work done in a staff member's name, in a transaction. */
  @ActivateRequestContext
  public <T> T as(Long staffId, Supplier<T> work) {
    return signedIn.actAs(staffId, () -> QuarkusTransaction.joiningExisting().call(work::get));
  }

  /** Signs a person in at the page, as a browser does. */
  public static Browser signIn(Member member) {
    Response answer = postSignIn(member.username(), PASSWORD);
    answer.then().statusCode(303);
    String cookie = answer.getCookie("stimshelf");
    String page =
        RestAssured.given().cookie("stimshelf", cookie).get("/account").then().extract().asString();
    String mark = "name=\"csrf\" value=\"";
    int from = page.indexOf(mark) + mark.length();
    return new Browser(cookie, page.substring(from, page.indexOf('"', from)));
  }

  public static Response postSignIn(String username, String password) {
    return RestAssured.given()
        .redirects()
        .follow(false)
        .contentType("application/x-www-form-urlencoded; charset=UTF-8")
        .formParam("username", username)
        .formParam("password", password)
        .post("/sign-in");
  }
}
