package clinic.stimshelf.access;

import clinic.stimshelf.access.HeldForms.Field;
import io.vertx.core.buffer.Buffer;
import io.vertx.ext.web.RoutingContext;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jboss.resteasy.reactive.server.core.ResteasyReactiveRequestContext;
import org.jboss.resteasy.reactive.server.core.multipart.FormData;
import org.jboss.resteasy.reactive.server.multipart.FormValue;
import org.jboss.resteasy.reactive.server.spi.ResteasyReactiveContainerRequestContext;

/** The fields a form was sent with; files are left out. */
record SentForm(List<Field> fields) {

  /** As read for the call that is being answered. */
  static SentForm of(ResteasyReactiveContainerRequestContext context) {
    List<Field> fields = new ArrayList<>();
    FormData data =
        ((ResteasyReactiveRequestContext) context.getServerRequestContext()).getFormData();
    if (data != null) {
      for (String name : data) {
        for (FormValue value : data.get(name)) {
          if (!value.isFileItem()) {
            fields.add(new Field(name, value.getValue()));
          }
        }
      }
    }
    return new SentForm(fields);
  }

  /** As it arrived, for a call that got no further than the door. */
  static SentForm of(RoutingContext call) {
    List<Field> fields = new ArrayList<>();
    Buffer body = call.body() == null ? null : call.body().buffer();
    if (body != null) {
      for (String pair : body.toString(StandardCharsets.UTF_8).split("&", -1)) {
        int equals = pair.indexOf('=');
        if (equals > 0) {
          try {
            fields.add(
                new Field(decoded(pair.substring(0, equals)), decoded(pair.substring(equals + 1))));
          } catch (IllegalArgumentException notEncoded) {
            // a field that no browser wrote this way
          }
        }
      }
    }
    return new SentForm(fields);
  }

  /** What stands in the field, or {@code null}. */
  String first(String name) {
    return fields.stream()
        .filter(field -> field.name().equals(name))
        .map(Field::value)
        .findFirst()
        .orElse(null);
  }

  boolean any() {
    return fields.stream().anyMatch(field -> !field.name().equals(ForgeryGuard.FIELD));
  }

  private static String decoded(String text) {
    return URLDecoder.decode(text, StandardCharsets.UTF_8);
  }
}
