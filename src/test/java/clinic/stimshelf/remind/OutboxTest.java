package clinic.stimshelf.remind;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.loans.LendingScene;
import clinic.stimshelf.people.ReachBy;
import clinic.stimshelf.testing.FaultyLine.Manner;
import clinic.stimshelf.testing.MutableClock;
import clinic.stimshelf.testing.PostOffice;
import com.icegreen.greenmail.util.GreenMailUtil;
import io.quarkus.test.junit.QuarkusMock;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import io.smallrye.health.api.Wellness;
import jakarta.inject.Inject;
import jakarta.mail.BodyPart;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.time.Duration;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Messages leave through a real SMTP server that fails in each way it can. */
@QuarkusTest
class OutboxTest {
  @Inject RemindScene scenes;
  @Inject LendingScene lending;
  @Inject PostOffice office;
  @Inject Postman postman;
  @Inject @Wellness OutboxHealth health;
  @Inject MutableClock clock;

  private RemindScene.Lent lent;

  @BeforeEach
  void lend() {
    lent = scenes.lent();
    scenes.onlyOf(lent.scene().location());
  }

  private List<MimeMessage> mails() {
    return office.mailTo(lent.email());
  }

  private void dayOf(String kind) {
    scenes.atDayOf(lent, kind, "09:00");
  }

  private static String text(MimeMessage mail) throws Exception {
    MimeMultipart parts = (MimeMultipart) mail.getContent();
    for (int i = 0; i < parts.getCount(); i++) {
      BodyPart part = parts.getBodyPart(i);
      if (part.isMimeType("text/plain")) {
        return (String) part.getContent();
      }
    }
    throw new AssertionError("There is no plain text.");
  }

  @Test
  void a_message_leaves_on_its_day_once_and_says_no_more_than_it_should() throws Exception {
    lending.at(scenes.of(lent.patientId()).get(0).onDay, "08:59");
    postman.round();
    assertThat(mails()).as("a minute before").isEmpty();

    dayOf("start-check");
    postman.round();
    postman.round();

    assertThat(mails()).hasSize(1);
    MimeMessage mail = mails().get(0);
    Message stored = scenes.messages(lent.patientId()).get(0);
    assertThat(mail.getMessageID()).isEqualTo("<" + stored.mailId + "@example.org>");
    assertThat(mail.getHeader("Auto-Submitted")).containsExactly("auto-generated");
    assertThat(mail.getHeader("List-Unsubscribe-Post"))
        .containsExactly("List-Unsubscribe=One-Click");
    assertThat(mail.getHeader("List-Unsubscribe")[0]).startsWith("<https://clinic.example/p/stop/");
    assertThat(mail.getSubject()).contains("A message from Location");
    assertThat(text(mail))
        .contains("Hello Ada Lindqvist,")
        .contains("https://clinic.example/p/")
        .doesNotContainIgnoringCase("stimul")
        .doesNotContainIgnoringCase("muscle");
    assertThat(stored.state).isEqualTo(MessageState.SENT);
    assertThat(scenes.of(lent.patientId()))
        .filteredOn(one -> one.kind.equals("start-check"))
        .allMatch(one -> one.state == ReminderState.SENT);
  }

  @Test
  void what_is_due_on_one_day_is_one_message() throws Exception {
    scenes.atDayOf(lent, "return-soon", "09:00");
    postman.round();

    assertThat(mails()).hasSize(1);
    assertThat(scenes.of(lent.patientId()))
        .filteredOn(one -> one.messageId != null && one.state == ReminderState.SENT)
        .hasSizeGreaterThan(1);
    clock.advance(Duration.ofMinutes(10));
    postman.round();
    assertThat(mails()).hasSize(1);
  }

  @Test
  void a_server_that_is_down_for_a_day_loses_nothing() {
    dayOf("start-check");
    office.line(Manner.DOWN);
    for (int hour = 0; hour < 24; hour++) {
      postman.round();
      clock.advance(Duration.ofHours(1));
    }
    assertThat(office.failures()).isPositive();
    assertThat(mails()).isEmpty();
    assertThat(health.call().getStatus().name()).isEqualTo("DOWN");

    office.line(Manner.FINE);
    clock.advance(Duration.ofHours(2));
    postman.round();
    postman.round();

    assertThat(mails()).hasSize(1);
    assertThat(health.call().getStatus().name()).isEqualTo("UP");
  }

  @Test
  void what_cannot_be_said_in_time_becomes_a_call() {
    dayOf("return-today");
    clock.advance(Duration.ofDays(-1));
    postman.round();
    int before = mails().size();
    clock.advance(Duration.ofDays(1));
    office.line(Manner.DOWN);
    postman.round();
    clock.advance(Duration.ofHours(10));
    office.line(Manner.FINE);
    postman.round();

    assertThat(mails()).as("the return day is over").hasSize(before);
    assertThat(scenes.waiting(lent.patientId()))
        .filteredOn(one -> one.kind.equals(Plan.UNREACHABLE))
        .anySatisfy(one -> assertThat(one.words).contains("The return day is today"));
  }

  @Test
  void an_address_that_is_refused_is_flagged_and_the_patient_is_called_instead() {
    dayOf("start-check");
    office.line(Manner.REFUSING);
    postman.round();
    office.line(Manner.FINE);
    clock.advance(Duration.ofHours(3));
    postman.round();

    assertThat(mails()).isEmpty();
    assertThat(scenes.messages(lent.patientId()).get(0).trouble).contains("550");
    assertThat(scenes.waiting(lent.patientId())).noneMatch(one -> one.route.sent());
    assertThat(scenes.waiting(lent.patientId())).anyMatch(one -> one.kind.equals("unreachable"));

    scenes.change(
        lent.scene(),
        lent.patientId(),
        ReachBy.EMAIL,
        "Ada Lindqvist",
        "en",
        "new." + lent.email(),
        null);

    assertThat(scenes.waiting(lent.patientId()))
        .as("a new address is written to again")
        .anyMatch(one -> one.route == Route.EMAIL);
  }

  @Test
  void a_refusal_for_now_is_tried_again() {
    dayOf("start-check");
    office.line(Manner.BUSY);
    postman.round();
    office.line(Manner.FINE);
    postman.round();
    assertThat(mails()).as("not at once").isEmpty();
    clock.advance(Duration.ofMinutes(1));
    postman.round();

    assertThat(mails()).hasSize(1);
  }

  @Test
  void a_line_that_breaks_within_the_message_delivers_it_once() {
    dayOf("start-check");
    office.line(Manner.DROPPING);
    postman.round();
    assertThat(office.failures()).isPositive();
    office.line(Manner.FINE);
    clock.advance(Duration.ofMinutes(1));
    postman.round();
    postman.round();

    assertThat(mails()).hasSize(1);
  }

  /** The one case SMTP cannot exclude (RFC 5321, 4.2.5 and 6.1): taken, but nobody heard it. */
  @Test
  void if_the_answer_is_lost_or_slow_the_same_mail_comes_again_under_the_same_message_id()
      throws Exception {
    for (Manner manner : List.of(Manner.SILENT, Manner.SLOW)) {
      lent = scenes.lent();
      scenes.onlyOf(lent.scene().location());
      dayOf("start-check");
      office.line(manner);
      postman.round();
      office.line(Manner.FINE);
      clock.advance(Duration.ofMinutes(1));
      postman.round();
      postman.round();

      assertThat(mails()).as("%s", manner).hasSize(2);
      assertThat(mails().get(0).getMessageID()).isEqualTo(mails().get(1).getMessageID());
    }
  }

  @Test
  void nothing_leaves_after_the_unit_came_back() {
    dayOf("start-check");
    LendingScene.post(
            lent.scene().desk(), "/api/loans/" + lent.loanId() + "/return", java.util.Map.of())
        .statusCode(200);
    postman.round();

    assertThat(mails()).isEmpty();
  }

  @Test
  void nobody_is_written_to_in_quiet_hours() {
    scenes.atDayOf(lent, "start-check", "20:30");
    postman.round();
    assertThat(mails()).isEmpty();

    clock.advance(Duration.ofHours(12));
    postman.round();
    assertThat(mails()).hasSize(1);
  }

  @Test
  void any_name_arrives_as_it_is_written() throws Exception {
    for (String name :
        List.of(
            "Zoë 🦉 Ó'Näïve",
            "دانا حسن",
            "A\u2028Bcc: x@example.net",
            // The longest name that is taken (PatientsTest refuses a longer one).
            "🦉".repeat(60))) {
      lent = scenes.lent();
      scenes.onlyOf(lent.scene().location());
      scenes.change(lent.scene(), lent.patientId(), ReachBy.EMAIL, name, "es", lent.email(), null);
      dayOf("start-check");
      postman.round();

      MimeMessage mail = mails().get(0);
      String said = name.replace('\u2028', ' ');
      // Unicode Bidirectional Algorithm (UAX #9, 2.6): an isolate keeps the sentence in order.
      assertThat(text(mail))
          .contains("Hola")
          .contains(name.startsWith("د") ? "\u2068" + said + "\u2069" : said);
      assertThat(mail.getAllRecipients()).hasSize(1);
      assertThat(mail.getHeader("Bcc")).isNull();
      assertThat(GreenMailUtil.getHeaders(mail)).doesNotContain("\nBcc");
    }
  }

  @Test
  void without_a_server_the_message_stands_to_be_read_and_is_marked_as_not_sent() {
    QuarkusMock.installMockForType(
        new Senders() {
          @Override
          boolean mail() {
            return false;
          }

          @Override
          boolean text() {
            return false;
          }

          @Override
          boolean any() {
            return false;
          }

          @Override
          boolean with(Route route) {
            return false;
          }
        },
        Senders.class);
    dayOf("start-check");
    postman.round();

    assertThat(mails()).isEmpty();
    assertThat(scenes.messages(lent.patientId()).get(0).state).isEqualTo(MessageState.UNSENT);
    assertThat(lent.scene().desk().script().get("/messages").asString())
        .contains("1 message was not sent")
        .contains("No mail server is set")
        .contains("Hello Ada Lindqvist,");
    assertThat(health.call().getStatus().name()).isEqualTo("UP");
  }

  @Test
  void the_way_out_shows_on_a_get_and_acts_on_a_post() throws Exception {
    dayOf("start-check");
    postman.round();
    Matcher way =
        Pattern.compile("<https://clinic.example(/p/stop/[A-Za-z0-9_-]{32})>")
            .matcher(mails().get(0).getHeader("List-Unsubscribe")[0]);
    assertThat(way.matches()).isTrue();
    String path = way.group(1);

    RestAssured.given().get(path).then().statusCode(200);
    RestAssured.given().head(path).then().statusCode(200);
    RestAssured.given()
        .queryParam("List-Unsubscribe", "One-Click")
        .get(path)
        .then()
        .statusCode(200);
    assertThat(scenes.waiting(lent.patientId()))
        .as("a scanner that opens links changes nothing")
        .anyMatch(one -> one.route.sent());

    RestAssured.given()
        .contentType("application/x-www-form-urlencoded")
        .formParam("List-Unsubscribe", "One-Click")
        .redirects()
        .follow(false)
        .post(path)
        .then()
        .statusCode(200);

    assertThat(scenes.waiting(lent.patientId())).noneMatch(one -> one.route.sent());
    assertThat(scenes.waiting(lent.patientId()))
        .filteredOn(one -> one.kind.equals(Plan.OPTED_OUT))
        .hasSize(1);
  }
}
