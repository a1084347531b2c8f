package clinic.stimshelf.exchange;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.eclipse.microprofile.config.inject.ConfigProperty;

/**
 * The demo's files: those in the folder the program is started in, else those packed into it, so
 * that the program alone has a demo too.
 */
@ApplicationScoped
class SeedFiles {
  @Inject Formats formats;

  @ConfigProperty(name = "stimshelf.seed", defaultValue = "seed")
  String folder;

  List<Importing.Task> inOrder() {
    List<Importing.Task> tasks = new ArrayList<>();
    for (FileFormat format : formats.inOrder()) {
      byte[] bytes = read(format.what() + ".csv");
      if (bytes != null) {
        tasks.add(
            new Importing.Task(format, new SourceFile("seed/" + format.what() + ".csv", bytes)));
      }
    }
    return tasks;
  }

  private byte[] read(String name) {
    Path file = Path.of(folder, name);
    try {
      if (Files.exists(file)) {
        return Files.readAllBytes(file);
      }
      try (InputStream packed =
          Thread.currentThread().getContextClassLoader().getResourceAsStream("seed/" + name)) {
        return packed == null ? null : packed.readAllBytes();
      }
    } catch (IOException e) {
      throw new UncheckedIOException("The demo's file " + file + " cannot be read", e);
    }
  }
}
