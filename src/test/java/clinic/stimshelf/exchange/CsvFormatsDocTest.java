package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/** The description of the files says what the program reads. */
@QuarkusTest
class CsvFormatsDocTest {
  private static final Path DOC = Path.of("docs/csv-formats.md");
  private static final String START = "<!-- the program's own columns; the test writes them -->\n";

  @Inject Formats formats;

  @Test
  void everyColumnIsDescribed() throws IOException {
    String text = Files.readString(DOC);
    String head = text.substring(0, text.indexOf(START) + START.length());
    String wanted = head + columns();
    if ("true".equals(System.getenv("STIMSHELF_WRITE_DOCS"))) {
      Files.writeString(DOC, wanted);
    }
    assertThat(Files.readString(DOC))
        .as("write it anew with STIMSHELF_WRITE_DOCS=true in the environment")
        .isEqualTo(wanted);
  }

  private String columns() {
    StringBuilder text = new StringBuilder();
    for (FileFormat format : formats.inOrder()) {
      text.append("\n## ").append(format.what()).append(".csv\n");
      text.append(format.title()).append(".\n\n");
      text.append("| column | must be there | allowed |\n|---|---|---|\n");
      for (Column<?> column : format.columns()) {
        text.append("| `").append(column.name()).append("` | ");
        text.append(column.isRequired() ? "yes" : "").append(" | ");
        text.append(column.allowed().replace("|", "\\|")).append(" |\n");
      }
    }
    return text.toString();
  }
}
