package clinic.stimshelf.whatif;

import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Roles;
import com.fasterxml.jackson.databind.JsonNode;
import jakarta.annotation.security.RolesAllowed;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.function.Function;
import org.eclipse.microprofile.openapi.annotations.enums.SchemaType;
import org.eclipse.microprofile.openapi.annotations.media.Content;
import org.eclipse.microprofile.openapi.annotations.media.ExampleObject;
import org.eclipse.microprofile.openapi.annotations.media.Schema;
import org.eclipse.microprofile.openapi.annotations.parameters.RequestBody;

/** The calculators for scripts. Nothing is kept, so that a repeated call needs no key. */
@Path("/api/what-if")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.THERAPIST, Roles.MANAGER})
class WhatIfApi {

  @POST
  @Path("dose")
  public DoseQuestion.DoseAnswer dose(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples = @ExampleObject(name = "dose", value = DoseQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, DoseQuestion::answer);
  }

  @POST
  @Path("pool")
  public PoolQuestion.PoolAnswer pool(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples = @ExampleObject(name = "pool", value = PoolQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, PoolQuestion::answer);
  }

  @POST
  @Path("return-curve")
  public ReturnsQuestion.ReturnsAnswer returnCurve(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples =
                          @ExampleObject(name = "return-curve", value = ReturnsQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, ReturnsQuestion::answer);
  }

  @POST
  @Path("pad-life")
  public PadLifeQuestion.PadLifeAnswer padLife(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples =
                          @ExampleObject(name = "pad-life", value = PadLifeQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, PadLifeQuestion::answer);
  }

  @POST
  @Path("reorder")
  public ReorderQuestion.ReorderAnswer reorder(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples = @ExampleObject(name = "reorder", value = ReorderQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, ReorderQuestion::answer);
  }

  @POST
  @Path("availability")
  public AvailabilityQuestion.AvailabilityAnswer availability(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples =
                          @ExampleObject(
                              name = "availability",
                              value = AvailabilityQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, AvailabilityQuestion::answer);
  }

  @POST
  @Path("lots")
  public LotsQuestion.LotsAnswer lots(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples = @ExampleObject(name = "lots", value = LotsQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, LotsQuestion::answer);
  }

  @POST
  @Path("rate")
  public RateQuestion.RateAnswer rate(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples = @ExampleObject(name = "rate", value = RateQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, RateQuestion::answer);
  }

  @POST
  @Path("unit-plan")
  public UnitPlanQuestion.UnitPlanAnswer unitPlan(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples =
                          @ExampleObject(name = "unit-plan", value = UnitPlanQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, UnitPlanQuestion::answer);
  }

  @POST
  @Path("forecast")
  public ForecastQuestion.ForecastAnswer forecast(
      @RequestBody(
              required = true,
              content =
                  @Content(
                      mediaType = MediaType.APPLICATION_JSON,
                      schema = @Schema(type = SchemaType.OBJECT),
                      examples =
                          @ExampleObject(name = "forecast", value = ForecastQuestion.EXAMPLE)))
          byte[] body) {
    return answered(body, ForecastQuestion::answer);
  }

  private static <T> T answered(byte[] body, Function<JsonNode, T> question) {
    try {
      return question.apply(Body.read(body));
    } catch (Unfit unfit) {
      throw new Malformed(
          unfit.faults().stream()
              .map(fault -> new Reason(fault.field(), fault.sentence(), null))
              .toList());
    }
  }
}
