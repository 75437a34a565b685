using System.Runtime.CompilerServices;
using Hl7.Fhir.Model;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Exchange.Tests.Fhir;

/// <summary>docs/fhir says what the program does. Set <c>PUPILBRIDGE_REWRITE_GOLDEN=1</c> to write the code systems anew.</summary>
public sealed class DefinitionsTests
{
    [Fact]
    public void The_code_systems_lie_in_the_folder_as_the_program_has_them()
    {
        foreach (var system in FhirCodeSystems.All(new FhirSettings()))
        {
            var path = Path.Combine(Folder(), $"CodeSystem-{system.Id}.json");
            var text = FhirJson.Write(system, isPretty: true).ReplaceLineEndings("\n") + "\n";
            if (Environment.GetEnvironmentVariable("PUPILBRIDGE_REWRITE_GOLDEN") == "1")
            {
                File.WriteAllText(path, text);
            }

            Assert.Equal(File.ReadAllText(path), text);
        }
    }

    [Fact]
    public void Every_code_has_a_meaning_and_stands_there_once()
    {
        Assert.Equal(LocalCodes.All.Count, LocalCodes.All.Select(c => c.Code).Distinct().Count());
        Assert.All(
            FhirCodeSystems.All(new FhirSettings()).SelectMany(s => s.Concept),
            c =>
            {
                Assert.Matches("^[a-z][a-z-]*$", c.Code);
                Assert.EndsWith(".", c.Definition, StringComparison.Ordinal);
                Assert.DoesNotContain('{', c.Definition!);
            }
        );
    }

    [Fact]
    public void Every_file_is_on_the_page_and_can_be_read()
    {
        var page = File.ReadAllText(Path.Combine(Folder(), "README.md"));
        Assert.True(FhirDefinitions.Names.Count >= 16, string.Join(' ', FhirDefinitions.Names));
        foreach (var name in FhirDefinitions.Names)
        {
            Assert.Contains($"`{name}`", page, StringComparison.Ordinal);
            Assert.Equal(File.ReadAllText(Path.Combine(Folder(), name)), FhirDefinitions.Text(name));
        }

        Assert.All(CodeMap.Usual.All, c => Assert.Contains(c.Code, page, StringComparison.Ordinal));
        Assert.Throws<ArgumentException>(() => FhirDefinitions.Text("no-such.json"));
    }

    [Fact]
    public void A_clinics_own_address_stands_in_the_definitions_that_it_hands_out()
    {
        var settings = new FhirSettings { Definitions = "https://example.org/quayside/fhir" };
        var profile = FhirJson.Read<StructureDefinition>(
            FhirDefinitions.Text("StructureDefinition-anisocoria.json", settings)
        );
        Assert.Equal(settings.Profile("anisocoria"), profile.Url);
        Assert.Equal(settings.Profile("pupil-exam-observation"), profile.BaseDefinition);
    }

    private static string Folder([CallerFilePath] string here = "") =>
        Path.Combine(Path.GetDirectoryName(here)!, "..", "..", "..", "docs", "fhir");
}
