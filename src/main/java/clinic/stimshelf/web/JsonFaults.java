package clinic.stimshelf.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonMappingException;
import java.util.stream.Collectors;

/** Says in words what is wrong with a JSON body, without echoing what it held. */
final class JsonFaults {
  private JsonFaults() {}

  static String words(Throwable cause) {
    if (cause instanceof JsonMappingException mapping && !mapping.getPath().isEmpty()) {
      return "The field “" + field(mapping) + "” does not hold what is expected there.";
    }
    if (cause instanceof JsonProcessingException json && json.getLocation() != null) {
      return "The body is not JSON: line "
          + json.getLocation().getLineNr()
          + ", column "
          + json.getLocation().getColumnNr()
          + ".";
    }
    return "The call could not be read.";
  }

  /** Where in the body it is, such as {@code answers.[2].side}; empty for the whole body. */
  static String field(JsonMappingException mapping) {
    return mapping.getPath().stream()
        .map(
            step -> step.getFieldName() != null ? step.getFieldName() : "[" + step.getIndex() + "]")
        .collect(Collectors.joining("."));
  }
}
