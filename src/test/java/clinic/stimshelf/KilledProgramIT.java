package clinic.stimshelf;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.FaultyLine;
import clinic.stimshelf.testing.Program;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.Statement;
import java.time.Duration;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/**
 * What was acknowledged survives {@code kill -9}, and the program starts again by itself. The last
 * kill comes when the mail server has a message and the program does not know it yet.
 */
class KilledProgramIT {
  private static final int KILLS = 10;
  private static final int WRITERS = 4;

  /** A location of the demo. */
  private static final String PLACE = "HARBOR";

  private static final ObjectMapper JSON = new ObjectMapper();

  @Test
  void loses_nothing_acknowledged_in_ten_kills_and_no_message_between_send_and_mark()
      throws Exception {
    Path folder = Path.of(System.getProperty("stimshelf.build", "target"), "killed");
    Program.startEmpty(folder).close();
    openAtAnyHour(folder);
    Random chance = new Random(20261125);
    Set<String> acknowledged = ConcurrentHashMap.newKeySet();
    for (int kill = 1; kill < KILLS; kill++) {
      Program program = Program.start(folder);
      String pad = aPadInStock(program);
      int before = acknowledged.size();
      CountDownLatch warm = new CountDownLatch(5);
      Thread[] writers = new Thread[WRITERS];
      for (int i = 0; i < WRITERS; i++) {
        writers[i] = new Thread(() -> write(program, pad, acknowledged, warm));
        writers[i].start();
      }
      assertThat(warm.await(60, TimeUnit.SECONDS)).as("writes are acknowledged").isTrue();
      Thread.sleep(200 + chance.nextInt(400));
      program.kill();
      for (Thread writer : writers) {
        writer.join();
      }
      assertThat(acknowledged.size()).as("written before kill %d", kill).isGreaterThan(before);
    }
    GreenMail server = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    server.start();
    try (FaultyLine line = new FaultyLine(0, server.getSmtp().getPort())) {
      String[] mail = {
        "-Dquarkus.mailer.from=clinic@example.org",
        "-Dquarkus.mailer.host=127.0.0.1",
        "-Dquarkus.mailer.port=" + line.port(),
        "-Dstimshelf.messages.patience=3s"
      };
      String patient = killBetweenSendAndMark(folder, line, server, mail);
      try (Program program = Program.start(folder, mail)) {
        assertThat(written(program)).containsAll(acknowledged);
        until(
            program,
            "marked as sent",
            () ->
                JSON.readTree(
                            program
                                .get("/api/reminders?state=sent&patientId=" + patient, "manager")
                                .body())
                        .get("total")
                        .asInt()
                    > 0);
        // The same patient, the same message, once more and no more.
        assertThat(copies(server)).hasSize(2);
        assertThat(Set.copyOf(copies(server))).hasSize(1);
      }
    } finally {
      server.stop();
    }
  }

  /**
   * One case no sender can exclude (RFC 5321, 4.2.5 and 6.1): the server has the message, and who
   * sent it is dead before it hears so.
   *
   * @return number of the patient whose message it was
   */
  private static String killBetweenSendAndMark(
      Path folder, FaultyLine line, GreenMail server, String... mail) throws Exception {
    Program program = Program.start(folder, mail);
    line.behave(FaultyLine.Manner.SLOW);
    somebodyToWriteTo(program);
    until(program, "sent", () -> line.failures() > 0);
    program.kill();
    line.behave(FaultyLine.Manner.FINE);
    assertThat(server.getReceivedMessages()).as("the server has it").hasSize(1);
    String id = server.getReceivedMessages()[0].getMessageID().replaceAll("[<>]|@.*", "");
    try (Connection database = database(folder);
        PreparedStatement find =
            database.prepareStatement("select state, patient_id from message where mail_id = ?")) {
      find.setString(1, id);
      ResultSet found = find.executeQuery();
      assertThat(found.next()).isTrue();
      assertThat(found.getString("state")).as("not marked").isEqualTo("CLAIMED");
      return found.getString("patient_id");
    }
  }

  /** A patient who comes tomorrow and is told so today, at whatever hour this runs. */
  private static void somebodyToWriteTo(Program program) throws Exception {
    HttpResponse<String> patient =
        program.post(
            "/api/patients",
            "frontdesk",
            JSON.createObjectNode()
                .put("chartNumber", "KILL-" + System.nanoTime())
                .put("name", "Ada Lindqvist")
                .put("birthDate", "1980-05-17")
                .put("reachBy", "email")
                .put("email", "ada@example.net")
                .put("language", "en")
                .put("remindersAllowed", true)
                .put("location", PLACE)
                .toString());
    assertThat(patient.statusCode()).as(patient.body()).isEqualTo(201);
    ZonedDateTime tomorrow =
        ZonedDateTime.now(ZoneId.of("America/New_York")).plusDays(1).truncatedTo(ChronoUnit.DAYS);
    HttpResponse<String> visit =
        program.post(
            "/api/appointments",
            "frontdesk",
            JSON.createObjectNode()
                .put("patientId", JSON.readTree(patient.body()).get("id").asText())
                .put("location", PLACE)
                .put("startsAt", tomorrow.withHour(12).toOffsetDateTime().toString())
                .put("endsAt", tomorrow.withHour(13).toOffsetDateTime().toString())
                .toString());
    assertThat(visit.statusCode()).as(visit.body()).isEqualTo(201);
  }

  /** Messages leave on every day and at every hour, so that this test can run at any. */
  private static void openAtAnyHour(Path folder) throws Exception {
    try (Connection database = database(folder);
        Statement change = database.createStatement()) {
      change.execute("delete from closure");
      change.execute("delete from opening_hours");
      change.execute(
          "insert into opening_hours (id, location_id, weekday, opens, closes) select 100 * l.id +"
              + " d.\"X\", l.id, d.\"X\", time '00:00:00', time '23:59:00' from location l,"
              + " system_range(1, 7) d");
      change.execute(
          "delete from location_setting where name in ('reminder-time', 'quiet-from',"
              + " 'quiet-until')");
      for (String name : List.of("reminder-time", "quiet-from", "quiet-until")) {
        change.execute(
            "insert into location_setting (id, location_id, name, setting_value) select next value"
                + " for location_setting_seq, l.id, '"
                + name
                + "', '00:00' from location l");
      }
    }
  }

  private static Connection database(Path folder) throws Exception {
    return DriverManager.getConnection(
        "jdbc:h2:file:"
            + folder.resolve("data/demo/stimshelf").toAbsolutePath()
            + ";MODE=PostgreSQL;DATABASE_TO_LOWER=TRUE;DEFAULT_NULL_ORDERING=HIGH;WRITE_DELAY=0"
            + ";OPTIMIZE_REUSE_RESULTS=FALSE");
  }

  private static List<String> copies(GreenMail server) throws Exception {
    String first = server.getReceivedMessages()[0].getMessageID();
    List<String> copies = new ArrayList<>();
    for (MimeMessage mail : server.getReceivedMessages()) {
      if (mail.getMessageID().equals(first)) {
        copies.add(mail.getAllRecipients()[0].toString());
      }
    }
    return copies;
  }

  private static void until(Program program, String what, Callable<Boolean> holds)
      throws Exception {
    long end = System.nanoTime() + Duration.ofMinutes(3).toNanos();
    while (!holds.call()) {
      if (System.nanoTime() > end) {
        throw new AssertionError("Waited in vain until it was " + what + ":\n" + program.log());
      }
      Thread.sleep(20);
    }
  }

  /** Takes and gives back a pack again and again, so that the drawer is never empty. */
  private static void write(
      Program program, String pad, Set<String> acknowledged, CountDownLatch warm) {
    try {
      while (true) {
        String taken = add(program, pad, acknowledged);
        add(
            program,
            JSON.createObjectNode().put("reverses", taken).put("note", "back").toString(),
            acknowledged);
        warm.countDown();
      }
    } catch (IOException killed) {
      // the answer never came: nothing was acknowledged
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  /** Adds a line of the ledger; what was answered is acknowledged. */
  private static String add(Program program, String body, Set<String> acknowledged)
      throws Exception {
    HttpResponse<String> answer = program.post("/api/stock-movements", "manager", body);
    if (answer.statusCode() / 100 != 2) {
      throw new IllegalStateException(answer.body());
    }
    String id = JSON.readTree(answer.body()).get("id").asText();
    acknowledged.add(id);
    return id;
  }

  private static String aPadInStock(Program program) throws Exception {
    JsonNode pads = JSON.readTree(program.get("/api/pads?size=200", "manager").body()).get("items");
    JsonNode most = null;
    for (JsonNode pad : pads) {
      if (most == null || pad.get("onHand").asInt() > most.get("onHand").asInt()) {
        most = pad;
      }
    }
    return JSON.createObjectNode()
        .put("code", most.get("code").asText())
        .put("location", most.get("location").asText())
        .put("packs", 1)
        .put("drawerReason", "teaching")
        .put("reason", "drawer-take")
        .toString();
  }

  private static Set<String> written(Program program) throws Exception {
    Set<String> ids = new HashSet<>();
    for (int page = 0; ; page++) {
      JsonNode answer =
          JSON.readTree(
              program.get("/api/stock-movements?size=200&page=" + page, "manager").body());
      answer.get("items").forEach(one -> ids.add(one.get("id").asText()));
      if ((page + 1) * 200L >= answer.get("total").asLong()) {
        return ids;
      }
    }
  }
}
