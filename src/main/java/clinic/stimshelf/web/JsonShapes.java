package clinic.stimshelf.web;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.deser.std.StdScalarDeserializer;
import com.fasterxml.jackson.databind.module.SimpleModule;
import io.quarkus.jackson.ObjectMapperCustomizer;
import jakarta.inject.Singleton;
import java.io.IOException;
import java.io.Serial;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;

/** Instants are read as ISO 8601 with an offset; seconds may be left out. */
@Singleton
class JsonShapes implements ObjectMapperCustomizer {

  @Override
  public void customize(ObjectMapper json) {
    json.registerModule(
        new SimpleModule("stimshelf").addDeserializer(Instant.class, new Instants()));
  }

  @Override
  public int priority() {
    return MINIMUM_PRIORITY;
  }

  private static final class Instants extends StdScalarDeserializer<Instant> {
    @Serial private static final long serialVersionUID = 1L;

    Instants() {
      super(Instant.class);
    }

    @Override
    public Instant deserialize(JsonParser parser, DeserializationContext context)
        throws IOException {
      String text = parser.getValueAsString("");
      try {
        return OffsetDateTime.parse(text.strip()).toInstant();
      } catch (DateTimeException unreadable) {
        return (Instant)
            context.handleWeirdStringValue(
                Instant.class, text, "a time such as 2026-03-14T14:30:00-04:00 is expected");
      }
    }
  }
}
