package clinic.stimshelf.exchange;

import clinic.stimshelf.access.SignedIn;
import clinic.stimshelf.web.Malformed;
import clinic.stimshelf.web.Problem;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Roles;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.List;
import org.jboss.resteasy.reactive.RestForm;
import org.jboss.resteasy.reactive.RestQuery;
import org.jboss.resteasy.reactive.multipart.FileUpload;

/** CSV in, all or nothing, and out again in the same formats; for managers. */
@Path("/api")
@RolesAllowed(Roles.MANAGER)
@Blocking
class ImportApi {
  private static final String FHIR = "application/fhir+json";
  private static final String CSV = "text/csv";

  @Inject ImportRuns runs;
  @Inject Exporting exporting;
  @Inject FhirHandOver handOver;
  @Inject Formats formats;
  @Inject SignedIn signedIn;

  /** One file as the body; {@code what} says what it holds. */
  @POST
  @Path("/imports")
  @Consumes({CSV, MediaType.TEXT_PLAIN})
  @Produces(MediaType.APPLICATION_JSON)
  public Response one(@RestQuery String what, @RestQuery Boolean dryRun, byte[] body) {
    if (what == null || what.isBlank()) {
      throw new Malformed("what", "Say what the file holds: ?what= with one of " + kinds() + ".");
    }
    formats.byName(what);
    return run(
        List.of(new SourceFile(what + ".csv", body == null ? new byte[0] : body)), what, dryRun);
  }

  /** Several files as a form; each is named after what it holds, unless {@code what} says it. */
  @POST
  @Path("/imports")
  @Consumes(MediaType.MULTIPART_FORM_DATA)
  @Produces(MediaType.APPLICATION_JSON)
  public Response several(
      @RestQuery String what,
      @RestQuery Boolean dryRun,
      @RestForm(FileUpload.ALL) List<FileUpload> uploads) {
    return run(sources(uploads), what, dryRun);
  }

  @GET
  @Path("/imports/{id}")
  @Produces(MediaType.APPLICATION_JSON)
  public ImportView state(@PathParam("id") long id) {
    return runs.view(id);
  }

  /** Units, loans, supplies and appointments as one Bundle of HL7 FHIR R4. */
  @GET
  @Path("/exports/fhir")
  @Produces(FHIR)
  public Response fhir(@RestQuery String location) {
    List<Long> mine = signedIn.locationsOr(location);
    StreamingOutput out = stream -> handOver.write(mine, stream);
    return Response.ok(out)
        .type(FHIR)
        .header("Content-Disposition", "attachment; filename=\"stimshelf-fhir.json\"")
        .build();
  }

  @GET
  @Path("/exports/{what}")
  @Produces(CSV)
  public Response export(@PathParam("what") String what, @RestQuery String location) {
    formats.byName(what);
    List<Long> mine = signedIn.locationsOr(location);
    StreamingOutput out = stream -> exporting.write(what, mine, stream);
    return Response.ok(out)
        .type("text/csv;charset=UTF-8")
        .header("Content-Disposition", "attachment; filename=\"" + what + ".csv\"")
        .build();
  }

  private Response run(List<SourceFile> sources, String what, Boolean dryRun) {
    ImportView view = runs.runNow(sources, what, !Boolean.TRUE.equals(dryRun));
    if (view.state() == RunState.FAULTY) {
      return Response.status(422)
          .type(Problem.MEDIA_TYPE)
          .entity(
              Problem.of(
                  422,
                  "Refused",
                  "Nothing was entered: " + view.faults().size() + " cells or lines are wrong.",
                  view.faults().stream().map(ImportApi::reason).toList()))
          .build();
    }
    return Response.ok(view).build();
  }

  private static Reason reason(Fault fault) {
    String column = fault.column().isEmpty() ? "" : "." + fault.column();
    return new Reason(fault.file() + "[" + fault.line() + "]" + column, fault.words(), null);
  }

  private String kinds() {
    return String.join(", ", formats.inOrder().stream().map(FileFormat::what).toList());
  }

  static List<SourceFile> sources(List<FileUpload> uploads) {
    return uploads == null
        ? List.of()
        : uploads.stream()
            .filter(upload -> upload.size() > 0 || !upload.fileName().isBlank())
            .map(
                upload -> {
                  try {
                    return new SourceFile(
                        upload.fileName(), Files.readAllBytes(upload.uploadedFile()));
                  } catch (IOException e) {
                    throw new UncheckedIOException(e);
                  }
                })
            .toList();
  }
}
