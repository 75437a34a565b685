using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Fhir.Codes;
using PupilBridge.Exchange.Tests.Fhir.Support;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Tests.Fhir;

public sealed class CodeMapTests
{
    private const string Right =
        """{"concept":"pupil-diameter","side":"right","system":"http://loinc.org","code":"8643-9","display":"R","tag":"seen","where":"a guide"}""";

    private const string Left =
        """{"concept":"pupil-diameter","side":"left","system":"http://loinc.org","code":"8641-3","display":"L","tag":"seen","where":"a guide"}""";

    [Fact]
    public void The_usual_map_gives_each_eye_its_own_code_and_never_the_others()
    {
        var right = CodeMap.Usual.Of("pupil-diameter", Eye.Right).Select(c => c.Code);
        var left = CodeMap.Usual.Of("pupil-diameter", Eye.Left).Select(c => c.Code);
        Assert.Equal(["8643-9", "363953003"], right);
        Assert.Equal(["8641-3", "363953003"], left);
        Assert.Equal(["52378001"], CodeMap.Usual.Of("pupil", Eye.Right).Select(c => c.Code));
        Assert.Equal(["16089004"], CodeMap.Usual.Of("pupil", Eye.Left).Select(c => c.Code));
        Assert.All(CodeMap.Usual.All, c => Assert.NotEqual("", c.Where));
    }

    // Recalled and not seen, or not found at all: shared check values, sections G1 and G2.
    [Theory]
    [InlineData("8642-1")]
    [InlineData("8640-5")]
    [InlineData("95314-1")]
    [InlineData("95316-6")]
    [InlineData("80311-4")]
    [InlineData("80313-0")]
    [InlineData("18944008")]
    public void What_was_only_remembered_is_not_in_the_map(string code) =>
        Assert.DoesNotContain(CodeMap.Usual.All, c => c.Code == code);

    [Fact]
    public void A_whole_pair_is_read() => Assert.Equal(2, CodeMap.Read(Map(Right, Left)).All.Count);

    [Theory]
    [InlineData("8643-9", "8643-8", "check digit")]
    [InlineData("\"seen\"", "\"recalled\"", "tagged 'seen'")]
    [InlineData("a guide", " ", "tagged 'seen'")]
    [InlineData("http://loinc.org", "http://example.org/other", "neither LOINC nor SNOMED CT")]
    [InlineData("pupil-diameter", "pupil-colour", "no code of ours")]
    [InlineData("\"right\"", "\"both\"", "neither right nor left")]
    public void A_code_that_must_not_be_used_is_refused_by_name(string part, string instead, string why)
    {
        var refused = Assert.Throws<FormatException>(() =>
            CodeMap.Read(Map(Right.Replace(part, instead, StringComparison.Ordinal), Left))
        );
        Assert.Contains(why, refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Half_a_pair_is_refused()
    {
        var refused = Assert.Throws<FormatException>(() => CodeMap.Read(Map(Right)));
        Assert.Contains("half a pair", refused.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("{}")]
    [InlineData("[]")]
    public void What_is_no_map_is_refused(string text) => Assert.Throws<FormatException>(() => CodeMap.Read(text));

    [Fact]
    public void Without_a_map_our_own_codes_still_say_everything()
    {
        var settings = new FhirSettings { Codes = CodeMap.None };
        var bundle = FhirBundles.Document(Records.Signed(Records.Constructed(2)), settings);
        Assert.DoesNotContain("snomed", FhirJson.Write(bundle), StringComparison.Ordinal);
        Assert.Equal("pupil-left", bundle.Observation("diameter/left/dim").BodySite!.Ours());
    }

    private static string Map(params string[] codes) => $$"""{"codes":[{{string.Join(',', codes)}}]}""";
}
