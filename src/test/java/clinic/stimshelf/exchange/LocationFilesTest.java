package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.location.Locations;
import clinic.stimshelf.web.NotFound;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import org.assertj.core.api.Assertions;
import org.junit.jupiter.api.Test;

@QuarkusTest
class LocationFilesTest {
  private static final String HEADER = "code,name,zone,hours,rooms,phone\n";
  private static final String HOURS = "mon 08:00-12:00 13:00-17:30 | sat 9:00-12:00";

  @Inject Importing importing;
  @Inject Exporting exporting;
  @Inject Formats formats;
  @Inject Locations locations;

  @Test
  void entersALocationAndLeavesItAloneTheSecondTime() {
    String file = HEADER + "X-LOC1,Hill,America/New_York," + HOURS + ",Gym: 4 | Bay 1: 1,+1 555\n";
    assertThat(run("locations", file, true).files().get(0))
        .isEqualTo(new Brought("locations", "locations.csv", 1, 1, 0));
    Long id = locations.byCode("X-LOC1").id();
    assertThat(locations.weeklyHours(id)).hasSize(2);
    assertThat(locations.rooms(id)).hasSize(2);
    assertThat(run("locations", file, true).files().get(0))
        .isEqualTo(new Brought("locations", "locations.csv", 1, 0, 1));
  }

  @Test
  void aPreviewKeepsNothing() {
    Outcome outcome =
        run("locations", HEADER + "X-LOC2,Hill,America/New_York," + HOURS + ",,\n", false);
    assertThat(outcome.ok()).isTrue();
    assertThat(outcome.files().get(0).entered()).isEqualTo(1);
    Assertions.assertThatThrownBy(() -> locations.byCode("X-LOC2")).isInstanceOf(NotFound.class);
  }

  @Test
  void namesEveryFaultAndThenEntersNothing() {
    Outcome outcome =
        run(
            "locations",
            HEADER
                + "X-LOC3,Hill,America/New_York,"
                + HOURS
                + ",,\n"
                + "X LOC,Hill,America/New_York,mon 8-5,Gym,\n"
                + "X-LOC4,,Mars/Base,mon 12:00-08:00,,\n"
                + "X-LOC3,Hill,America/New_York,"
                + HOURS
                + ",,\n"
                + "X-LOC5,Hill,Mars/Base,mon 12:00-08:00,,,more\n",
            true);
    assertThat(outcome.faults().stream().map(Fault::words))
        .anySatisfy(
            f -> assertThat(f).startsWith("locations.csv, line 3, code, “X LOC”: Allowed is"))
        .anySatisfy(f -> assertThat(f).startsWith("locations.csv, line 3, hours, “mon 8-5”"))
        .anySatisfy(f -> assertThat(f).startsWith("locations.csv, line 3, rooms, “Gym”"))
        .anySatisfy(f -> assertThat(f).startsWith("locations.csv, line 4, name: This is missing"))
        .anySatisfy(f -> assertThat(f).contains("line 5").contains("Line 2 names the same"))
        .anySatisfy(f -> assertThat(f).contains("line 6").contains("7 cells"));
    Assertions.assertThatThrownBy(() -> locations.byCode("X-LOC3")).isInstanceOf(NotFound.class);
  }

  @Test
  void namesWhatTheRulesOfTheRoomSayAtTheCell() {
    Outcome outcome =
        run(
            "locations",
            HEADER
                + "X-LOC6,Hill,Mars/Base,mon 12:00-08:00,,\n"
                + "X-LOC7,Hill,Moon/Base,"
                + HOURS
                + ",,\n",
            true);
    assertThat(outcome.faults().stream().map(Fault::words))
        .anySatisfy(f -> assertThat(f).startsWith("locations.csv, line 2, zone, “Mars/Base”"))
        .anySatisfy(
            f -> assertThat(f).startsWith("locations.csv, line 2, hours, “mon 12:00-08:00”"))
        .anySatisfy(f -> assertThat(f).startsWith("locations.csv, line 3, zone, “Moon/Base”"));
  }

  @Test
  void namesUnknownAndMissingColumns() {
    Outcome outcome = run("locations", "code,name,colour,code,hours\nA,B,C,D,E\n", true);
    assertThat(outcome.faults().stream().map(Fault::words))
        .anySatisfy(
            f -> assertThat(f).startsWith("locations.csv, line 1, colour: There is no such"))
        .anySatisfy(f -> assertThat(f).contains("code: This column stands here twice"))
        .anySatisfy(f -> assertThat(f).contains("The column zone is missing"));
  }

  @Test
  void whatIsExportedChangesNothingWhenItIsReadAgain() {
    run("locations", HEADER + "X-LOC8,=Hill,America/New_York," + HOURS + ",Gym: 4,+1 555\n", true);
    run(
        "closures",
        "location;on_day;opens;closes;reason\nX-LOC8;12/24/2026;8:00;12:00;Eve\n",
        true);
    run("settings", "location,name,value\nX-LOC8,service-level,0.95\n", true);
    Long id = locations.byCode("X-LOC8").id();
    assertThat(locations.closuresFrom(id, LocalDate.of(2026, 1, 1))).hasSize(1);
    for (String what : List.of("locations", "closures", "settings")) {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      assertThat(exporting.write(what, List.of(id), out)).isEqualTo(1);
      Outcome again =
          importing.run(
              List.of(
                  new Importing.Task(
                      formats.byName(what), new SourceFile(what + ".csv", out.toByteArray()))),
              new Importing.Manner(true, false, null),
              Importing.Progress.NONE);
      assertThat(again.faults()).isEmpty();
      assertThat(again.files().get(0).unchanged()).isEqualTo(1);
      assertThat(out.toString(StandardCharsets.UTF_8).split("\r\n"))
          .hasSize(2)
          .allSatisfy(
              line ->
                  assertThat(Arrays.asList(line.split(",")))
                      .noneMatch(cell -> cell.startsWith("=") || cell.startsWith("+")));
    }
  }

  private Outcome run(String what, String text, boolean keep) {
    return importing.run(
        List.of(
            new Importing.Task(
                formats.byName(what),
                new SourceFile(what + ".csv", text.getBytes(StandardCharsets.UTF_8)))),
        new Importing.Manner(keep, false, null),
        Importing.Progress.NONE);
  }
}
