package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.context.control.ActivateRequestContext;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Files in and out for tests. */
@ApplicationScoped
class Files {
  @Inject Importing importing;
  @Inject Exporting exporting;
  @Inject Formats formats;

  @ActivateRequestContext
  Outcome run(String what, String text, boolean keep) {
    return run(what, text.getBytes(StandardCharsets.UTF_8), keep);
  }

  @ActivateRequestContext
  Outcome run(String what, byte[] bytes, boolean keep) {
    return importing.run(
        List.of(new Importing.Task(formats.byName(what), new SourceFile(what + ".csv", bytes))),
        new Importing.Manner(keep, false, null),
        Importing.Progress.NONE);
  }

  /** Enters rows that must be in order. */
  Brought enter(String what, String text) {
    Outcome outcome = run(what, text, true);
    assertThat(outcome.faults()).as(what).isEmpty();
    return outcome.files().get(0);
  }

  @ActivateRequestContext
  String export(String what, Long... locations) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    exporting.write(what, List.of(locations), out);
    return out.toString(StandardCharsets.UTF_8);
  }

  /** What is exported, read again, changes nothing. */
  void assertRoundTrip(String what, int rows, Long... locations) {
    String first = export(what, locations);
    Brought again = enter(what, first);
    assertThat(again.rows()).as(what + " rows").isEqualTo(rows);
    assertThat(again.unchanged()).as(what + " unchanged").isEqualTo(rows);
    assertThat(export(what, locations)).as(what + " afterwards").isEqualTo(first);
  }
}
