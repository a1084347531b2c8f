package clinic.stimshelf.access;

import io.quarkus.security.AuthenticationFailedException;
import io.quarkus.security.ForbiddenException;
import io.quarkus.security.UnauthorizedException;
import io.smallrye.mutiny.Uni;
import io.smallrye.mutiny.infrastructure.Infrastructure;
import io.vertx.ext.web.RoutingContext;
import jakarta.inject.Inject;
import jakarta.ws.rs.core.Response;
import java.util.function.Supplier;
import org.jboss.logging.Logger;
import org.jboss.resteasy.reactive.server.ServerExceptionMapper;

/** Answers for calls that may not be made: by nobody, by this person, or not just now. */
class AccessFailures {
  private static final Logger LOG = Logger.getLogger(AccessFailures.class);

  @Inject Turned turned;

  @ServerExceptionMapper(UnauthorizedException.class)
  Uni<Response> nobody(RoutingContext call) {
    return blocking(() -> turned.signInFirst(call));
  }

  @ServerExceptionMapper(AuthenticationFailedException.class)
  Uni<Response> failed(AuthenticationFailedException failure, RoutingContext call) {
    return blocking(() -> turned.notLetIn(call, NotLetIn.behind(failure)));
  }

  @ServerExceptionMapper(NotLetIn.class)
  Uni<Response> notLetIn(NotLetIn why, RoutingContext call) {
    return blocking(() -> turned.notLetIn(call, why));
  }

  @ServerExceptionMapper(ForbiddenException.class)
  Uni<Response> forbidden(RoutingContext call) {
    LOG.infof("Refused to a signed-in account: %s", call.request().method());
    return blocking(
        () ->
            turned.refused(
                call,
                403,
                "Not for your role",
                "Your role has no use of this. A manager can change roles in Settings, Staff."));
  }

  private static Uni<Response> blocking(Supplier<Response> answer) {
    return Uni.createFrom().item(answer).runSubscriptionOn(Infrastructure.getDefaultWorkerPool());
  }
}
