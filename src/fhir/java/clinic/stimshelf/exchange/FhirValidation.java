package clinic.stimshelf.exchange;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import ca.uhn.fhir.validation.ValidationResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;

/**
 * Holds a file against the definitions of HL7 FHIR R4 (4.0.1) that come with the HAPI validator,
 * offline, and ends with 1 if anything is wrong.
 */
public final class FhirValidation {
  private FhirValidation() {}

  public static void main(String[] arguments) throws Exception {
    Path file = Path.of(arguments[0]);
    if (!Files.exists(file)) {
      System.err.println(
          file + " is not there: run mvn test -Dtest=FhirHandOverTest first, which writes it.");
      System.exit(1);
    }
    FhirContext r4 = FhirContext.forR4();
    ValidationSupportChain known =
        new ValidationSupportChain(
            new DefaultProfileValidationSupport(r4),
            new InMemoryTerminologyServerValidationSupport(r4),
            new CommonCodeSystemsTerminologyService(r4));
    FhirValidator validator = r4.newValidator();
    validator.registerValidatorModule(new FhirInstanceValidator(known));
    ValidationResult result = validator.validateWithResult(Files.readString(file));
    List<SingleValidationMessage> wrong =
        result.getMessages().stream()
            .filter(one -> one.getSeverity().compareTo(ResultSeverityEnum.ERROR) >= 0)
            .toList();
    wrong.stream()
        .limit(40)
        .forEach(one -> System.err.println(one.getLocationString() + ": " + one.getMessage()));
    System.out.println(
        file + ": " + wrong.size() + " errors, " + result.getMessages().size() + " remarks in all");
    System.exit(wrong.isEmpty() ? 0 : 1);
  }
}
