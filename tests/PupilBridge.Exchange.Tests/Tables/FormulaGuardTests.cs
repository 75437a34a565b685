using CsCheck;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Exchange.Tests.Tables;

public class FormulaGuardTests
{
    // The first six are the characters of the OWASP page "CSV Injection" (from memory); blanks, full-width forms and the apostrophe
    // are ours.
    [Theory]
    [InlineData("=cmd|' /C calc'!A0")]
    [InlineData("+1+1")]
    [InlineData("-1+1")]
    [InlineData("@SUM(A1)")]
    [InlineData("\t=1")]
    [InlineData("\r=1")]
    [InlineData("\n=1")]
    [InlineData("  =1")]
    [InlineData("＝1")]
    [InlineData("＠SUM(A1)")]
    [InlineData("'quoted")]
    public void A_text_that_a_spreadsheet_could_calculate_gets_an_apostrophe(string text) =>
        Assert.Equal("'" + text, FormulaGuard.Guarded(text));

    [Theory]
    [InlineData("")]
    [InlineData("Q-1001")]
    [InlineData("a=b")]
    [InlineData("PERRLA -ve")]
    [InlineData("3.2")]
    [InlineData("   ")]
    public void Any_other_text_stays(string text) => Assert.Equal(text, FormulaGuard.Guarded(text));

    [Fact]
    public void Taking_one_apostrophe_away_gives_every_text_back() =>
        Gen.String["=+-@\t\r\n ' a1,\";"]
            .Sample(text => Assert.Equal(text, FormulaGuard.Restored(FormulaGuard.Guarded(text))));
}
