package clinic.stimshelf.people;

import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Roles;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import java.util.List;

/** The clinic's screening questions and muscles, so that a script knows the keys. */
@Path("/api")
@Produces(MediaType.APPLICATION_JSON)
@RolesAllowed({Roles.FRONT_DESK, Roles.THERAPIST, Roles.MANAGER})
class QuestionApi {
  @Inject Screenings screenings;
  @Inject Questions questions;
  @Inject Muscles muscles;

  /** All questions, or those asked before a muscle is treated. */
  @GET
  @Path("screening-questions")
  public List<Question> questions(@QueryParam("muscle") String muscle) {
    if (muscle == null) {
      return List.copyOf(questions.all());
    }
    if (muscles.find(muscle).isEmpty()) {
      throw new Malformed("muscle", "No muscle is called “" + muscle + "”.");
    }
    return screenings.questionsFor(muscle);
  }

  @GET
  @Path("muscles")
  public List<Muscle> muscles() {
    return muscles.all();
  }
}
