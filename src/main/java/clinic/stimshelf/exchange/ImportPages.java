package clinic.stimshelf.exchange;

import clinic.stimshelf.web.CsvSheet;
import clinic.stimshelf.web.Form;
import clinic.stimshelf.web.Option;
import clinic.stimshelf.web.Reason;
import clinic.stimshelf.web.Refusal;
import clinic.stimshelf.web.Roles;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.smallrye.common.annotation.Blocking;
import jakarta.annotation.security.RolesAllowed;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.StreamingOutput;
import java.net.URI;
import java.util.List;
import org.jboss.resteasy.reactive.RestForm;
import org.jboss.resteasy.reactive.multipart.FileUpload;

/** Settings, Import and export. */
@Path("/settings/import")
@Produces(MediaType.TEXT_HTML)
@RolesAllowed(Roles.MANAGER)
@Blocking
class ImportPages {
  private static final int SHOWN_FAULTS = 200;

  @Inject ImportRuns runs;
  @Inject Formats formats;

  /** A kind of file with its columns. */
  record Kind(String what, String title, List<Cell> columns) {}

  record Cell(String name, boolean required, String allowed) {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ImportStart(
      Form form,
      List<Reason> reasons,
      List<Option> choices,
      List<Kind> kinds,
      List<ImportView> recent)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ImportStatus(ImportView run, List<Fault> shown, long percent)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "exchange", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ImportProgress(ImportView run, List<Fault> shown, long percent)
      implements TemplateInstance {}

  @GET
  public TemplateInstance start() {
    return page(Form.empty());
  }

  @POST
  @Consumes(MediaType.MULTIPART_FORM_DATA)
  public Response check(@RestForm String what, @RestForm("files") List<FileUpload> uploads) {
    try {
      Long id = runs.preview(ImportApi.sources(uploads), what);
      return Response.seeOther(URI.create("/settings/import/" + id)).build();
    } catch (Refusal refusal) {
      Form form = Form.empty().prefill("what", what).refused(refusal);
      return Response.status(422).entity(page(form)).type("text/html;charset=UTF-8").build();
    }
  }

  @GET
  @Path("/{id:\\d+}")
  public TemplateInstance status(
      @PathParam("id") long id, @HeaderParam("HX-Request") boolean part) {
    ImportView run = runs.view(id);
    List<Fault> shown = run.faults().stream().limit(SHOWN_FAULTS).toList();
    long percent = run.rowsOf() == 0 ? 0 : Math.min(100, run.rowsDone() * 100 / run.rowsOf());
    return part ? new ImportProgress(run, shown, percent) : new ImportStatus(run, shown, percent);
  }

  @POST
  @Path("/{id:\\d+}/enter")
  public Response enter(@PathParam("id") long id) {
    try {
      runs.enter(id);
    } catch (Refusal alreadyOver) {
      // The page that follows says how it stands.
    }
    return Response.seeOther(URI.create("/settings/import/" + id)).build();
  }

  /** All faults, for whoever mends the sheet. */
  @GET
  @Path("/{id:\\d+}/faults.csv")
  @Produces("text/csv")
  public Response faults(@PathParam("id") long id) {
    List<Fault> faults = runs.view(id).faults();
    StreamingOutput out =
        stream -> {
          try (CsvSheet sheet = new CsvSheet(stream)) {
            sheet.line(List.of("file", "line", "column", "value", "says"));
            faults.forEach(
                fault ->
                    sheet.line(
                        List.of(
                            fault.file(),
                            String.valueOf(fault.line()),
                            fault.column(),
                            fault.value(),
                            fault.says())));
          }
        };
    return Response.ok(out)
        .type("text/csv;charset=UTF-8")
        .header("Content-Disposition", "attachment; filename=\"faults.csv\"")
        .build();
  }

  private ImportStart page(Form form) {
    List<FileFormat> all = formats.inOrder();
    return new ImportStart(
        form,
        form.reasons(),
        all.stream().map(format -> new Option(format.what(), format.title())).toList(),
        all.stream()
            .map(
                format ->
                    new Kind(
                        format.what(),
                        format.title(),
                        format.columns().stream()
                            .map(c -> new Cell(c.name(), c.isRequired(), c.allowed()))
                            .toList()))
            .toList(),
        runs.recent());
  }
}
