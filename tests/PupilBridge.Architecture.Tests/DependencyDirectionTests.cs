namespace PupilBridge.Architecture.Tests;

/// <summary>
/// Which part may know which. The table is the whole truth: a project that is not in it, or an arrow that is not in it,
/// fails. Read from the assemblies' own references, so an unused project reference does not count and a used one does.
/// </summary>
public sealed class DependencyDirectionTests
{
    private static readonly Dictionary<string, string[]> MayReference = new(StringComparer.Ordinal)
    {
        ["PupilBridge.Instrument"] = [],
        ["PupilBridge.Exams"] = ["PupilBridge.Instrument"],
        ["PupilBridge.Ports"] = [],
        ["PupilBridge.Keys"] = [],
        ["PupilBridge.Journal"] = ["PupilBridge.Keys"],
        // Copies and proves what lies in the journal, sealed or not; it knows bytes, as the journal does, and no entry.
        ["PupilBridge.Safekeeping"] = ["PupilBridge.Journal"],
        ["PupilBridge.ExamLog"] = ["PupilBridge.Exams", "PupilBridge.Instrument", "PupilBridge.Keys"],
        ["PupilBridge.Worker"] =
        [
            "PupilBridge.Ports",
            "PupilBridge.Journal",
            "PupilBridge.Keys",
            "PupilBridge.ExamLog",
            "PupilBridge.Exams",
            "PupilBridge.Instrument",
        ],
        // The reading of what people can see reaches down to the domain's values, never to ports or to the store.
        ["PupilBridge.Clinic"] =
        [
            "PupilBridge.Worker",
            "PupilBridge.ExamLog",
            "PupilBridge.Journal",
            "PupilBridge.Exams",
            "PupilBridge.Instrument",
        ],
        // What leaves the house is made of signed records and of what people may see, never of the store.
        ["PupilBridge.Exchange"] = ["PupilBridge.Clinic", "PupilBridge.Exams", "PupilBridge.Instrument"],
        // The console knows what people can do and see, how it leaves the house, and the words and values in which that is said;
        // nothing below but the pair of eyes, which is set and read by name so that the two cannot be swapped.
        ["PupilBridge.Console"] = ["PupilBridge.Clinic", "PupilBridge.Exchange", "PupilBridge.Instrument"],
        // The bench of firmware authors knows the protocol and ports; nothing of what the service makes of them.
        ["PupilBridge.Conformance"] = ["PupilBridge.Instrument", "PupilBridge.Ports"],
        ["PupilBridge.Simulator"] = ["PupilBridge.Instrument", "PupilBridge.Ports"],
    };

    public static TheoryData<string> Parts => new(Assemblies.Ours.Select(a => a.GetName().Name!));

    [Theory]
    [MemberData(nameof(Parts))]
    public void A_part_knows_only_the_parts_below_it(string part)
    {
        var assembly = Assemblies.Ours.Single(a => a.GetName().Name == part);
        var known = Assemblies.ReferencesOf(assembly).Where(name => Assemblies.Ours.Any(o => o.GetName().Name == name));
        if (part == Assemblies.Executable)
        {
            Assert.NotEmpty(known);
            return;
        }

        Assert.True(
            MayReference.ContainsKey(part),
            $"{part} has no row in the table of dependencies; add one on purpose."
        );
        Assert.Empty(known.Except(MayReference[part], StringComparer.Ordinal));
    }

    [Fact]
    public void Nothing_sees_the_executable() =>
        Assert.Empty(
            Assemblies
                .Ours.Where(a => Assemblies.ReferencesOf(a).Contains(Assemblies.Executable))
                .Select(a => a.GetName().Name)
        );

    [Theory]
    [InlineData("LiteDB", "PupilBridge.ExamLog")]
    [InlineData("System.IO.Ports", "PupilBridge.Ports")]
    // Lines are tried again by the worker, sendings to other systems by the exchange: two parts, each with a rim of its own.
    [InlineData("Polly.Core", "PupilBridge.Exchange", "PupilBridge.Worker")]
    [InlineData("Hl7.Fhir.R4", "PupilBridge.Exchange")]
    [InlineData("BouncyCastle.Cryptography", "PupilBridge.Safekeeping")]
    public void Only_its_owners_see_a_package(string package, params string[] owners)
    {
        var seers = Assemblies
            .Ours.Where(a => Assemblies.ReferencesOf(a).Contains(package))
            .Select(a => a.GetName().Name!)
            .Order(StringComparer.Ordinal);
        Assert.Equal(owners, seers);
    }

    [Theory]
    [InlineData("PupilBridge.Instrument")]
    [InlineData("PupilBridge.Exams")]
    public void The_core_touches_no_file_no_socket_and_no_thread(string part)
    {
        var assembly = Assemblies.Ours.Single(a => a.GetName().Name == part);
        string[] rim =
        [
            "System.Net.Sockets",
            "System.IO.FileSystem",
            "System.IO.Ports",
            "System.Threading.Thread",
            "System.Diagnostics.Process",
        ];
        Assert.Empty(Assemblies.ReferencesOf(assembly).Intersect(rim, StringComparer.Ordinal));
    }
}
