package clinic.stimshelf;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.testing.Program;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** What was acknowledged survives {@code kill -9}, and the program starts again by itself. */
class KilledProgramIT {
  private static final int KILLS = 10;
  private static final int WRITERS = 4;
  private static final ObjectMapper JSON = new ObjectMapper();

  @Test
  void loses_nothing_acknowledged_in_ten_kills() throws Exception {
    Path folder = Path.of(System.getProperty("stimshelf.build", "target"), "killed");
    Program.startEmpty(folder).close();
    Random chance = new Random(20261125);
    Set<String> acknowledged = ConcurrentHashMap.newKeySet();
    for (int kill = 0; kill < KILLS; kill++) {
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
      assertThat(acknowledged.size()).as("written before kill %d", kill + 1).isGreaterThan(before);
    }
    try (Program program = Program.start(folder)) {
      assertThat(written(program)).containsAll(acknowledged);
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
