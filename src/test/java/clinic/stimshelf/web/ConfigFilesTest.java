package clinic.stimshelf.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ConfigFilesTest {
  @TempDir Path folder;

  record Shelf(String longName, List<Integer> boards) {}

  @Test
  void the_folder_comes_before_what_was_packed() throws Exception {
    ConfigFiles files = new ConfigFiles(folder.toString());
    assertThat(files.text("muscles.yaml")).contains("quadriceps");

    Files.writeString(folder.resolve("muscles.yaml"), "own");
    assertThat(files.text("muscles.yaml")).isEqualTo("own");
  }

  @Test
  void keys_are_written_with_dashes() throws Exception {
    Files.writeString(folder.resolve("shelf.yaml"), "long-name: top\nboards: [1, 2]\n");
    assertThat(new ConfigFiles(folder.toString()).read("shelf.yaml", Shelf.class))
        .isEqualTo(new Shelf("top", List.of(1, 2)));
  }

  @Test
  void says_where_a_file_is_wrong() {
    assertThatThrownBy(
            () -> ConfigFiles.parse("shelf.yaml", "long-name: a\nboards: [1, many]", Shelf.class))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageStartingWith("config/shelf.yaml, line 2 (boards › entry 2): ");
  }

  @Test
  void refuses_a_misspelled_key() {
    assertThatThrownBy(() -> ConfigFiles.parse("shelf.yaml", "longname: a", Shelf.class))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("longname");
  }

  @Test
  void says_which_file_is_missing() {
    assertThatThrownBy(() -> new ConfigFiles(folder.toString()).text("nothing.yaml"))
        .hasMessage("config/nothing.yaml is missing.");
  }
}
