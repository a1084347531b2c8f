package clinic.stimshelf.exchange;

import clinic.stimshelf.web.NotFound;
import io.quarkus.arc.All;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Every kind of file, in the order in which a folder of them is read. */
@ApplicationScoped
class Formats {
  @Inject @All List<FileFormat> formats;

  List<FileFormat> inOrder() {
    return formats.stream().sorted(Comparator.comparingInt(FileFormat::order)).toList();
  }

  Optional<FileFormat> find(String what) {
    return formats.stream().filter(format -> format.what().equals(what)).findFirst();
  }

  /**
   * @throws NotFound if there is none
   */
  FileFormat byName(String what) {
    return find(what)
        .orElseThrow(
            () ->
                new NotFound(
                    "There is no kind of file “"
                        + what
                        + "”. There are: "
                        + String.join(", ", inOrder().stream().map(FileFormat::what).toList())
                        + "."));
  }
}
