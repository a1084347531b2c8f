package clinic.stimshelf.whatif;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import java.io.IOException;
import java.util.List;

/**
 * Reads the body of a call: numbers as exact decimals, no field twice, nothing behind the end. NaN
 * and Infinity, which are not JSON, are read so that they can be refused by the name of their
 * field.
 */
final class Body {
  private static final JsonMapper JSON =
      JsonMapper.builder()
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
          .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
          .build();

  private Body() {}

  /**
   * @throws Unfit if it is not JSON
   */
  static JsonNode read(byte[] bytes) {
    try (JsonParser parser = JSON.createParser(bytes == null ? new byte[0] : bytes)) {
      return read(parser);
    } catch (IOException impossible) {
      throw new Unfit(List.of(new Unfit.Fault("", "could not be read.")));
    }
  }

  private static JsonNode read(JsonParser parser) {
    try {
      JsonNode node = JSON.readTree(parser);
      if (node == null) {
        throw new Unfit(List.of(new Unfit.Fault("", "is empty, but must be a JSON object.")));
      }
      if (parser.nextToken() != null) {
        throw new Unfit(List.of(new Unfit.Fault("", "goes on after its JSON object has ended.")));
      }
      return node;
    } catch (JsonProcessingException broken) {
      throw new Unfit(List.of(new Unfit.Fault(place(parser), words(broken.getLocation()))));
    } catch (IOException | NumberFormatException unreadable) {
      throw new Unfit(List.of(new Unfit.Fault(place(parser), words(null))));
    }
  }

  private static String words(JsonLocation at) {
    return "cannot be read as JSON"
        + (at == null ? "" : " (line " + at.getLineNr() + ", column " + at.getColumnNr() + ")")
        + ": a value, comma, bracket or quote is wrong there, a name stands twice, or a number is"
        + " too long.";
  }

  /** Where the parser stopped, as {@link Fields} names places. */
  private static String place(JsonParser parser) {
    StringBuilder place = new StringBuilder();
    var at = parser.getParsingContext().pathAsPointer();
    for (; at != null && !at.matches(); at = at.tail()) {
      if (at.mayMatchElement()) {
        place.append('[').append(at.getMatchingIndex()).append(']');
      } else {
        place.append(place.isEmpty() ? "" : ".").append(at.getMatchingProperty());
      }
    }
    return Fields.shortened(place.toString());
  }
}
