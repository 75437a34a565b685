using PupilBridge.Exchange.Fhir.Codes;

namespace PupilBridge.Exchange.Tests.Fhir;

public sealed class CodeDigitsTests
{
    // Public codes, seen in LOINC 2.82 and in FHIR guides on stroke and intensive care.
    [Theory]
    [InlineData("8643-9", true)]
    [InlineData("8641-3", true)]
    [InlineData("80310-6", true)]
    [InlineData("80312-2", true)]
    [InlineData("79815-7", true)]
    [InlineData("79899-1", true)]
    [InlineData("106805-5", true)]
    [InlineData("75944-9", true)]
    [InlineData("99999-9", false)]
    [InlineData("8643-8", false)]
    [InlineData("8634-9", false)]
    [InlineData("8643", false)]
    [InlineData("-9", false)]
    [InlineData("86a3-9", false)]
    [InlineData("8643-91", false)]
    public void A_LOINC_code_is_known_by_its_check_digit(string code, bool isRight) =>
        Assert.Equal(isRight, CodeDigits.IsLoinc(code));

    // Public SNOMED CT identifiers, seen in FHIR guides and in DICOM PS3.16, CID 244.
    [Theory]
    [InlineData("363953003", true)]
    [InlineData("363954009", true)]
    [InlineData("45832002", true)]
    [InlineData("84917001", true)]
    [InlineData("247010007", true)]
    [InlineData("301942005", true)]
    [InlineData("52378001", true)]
    [InlineData("16089004", true)]
    [InlineData("67019001", true)]
    [InlineData("24028007", true)]
    [InlineData("7771000", true)]
    [InlineData("123", false)]
    [InlineData("52378002", false)]
    [InlineData("53278001", false)]
    [InlineData("052378001", false)]
    [InlineData("5237800I", false)]
    public void A_SNOMED_identifier_is_known_by_its_check_digit(string code, bool isRight) =>
        Assert.Equal(isRight, CodeDigits.IsSnomed(code));

    // What Verhoeff's scheme is for: every single wrong digit and every swap of neighbours is found (his tract of 1969).
    [Theory]
    [InlineData("52378001")]
    [InlineData("363953003")]
    public void Every_wrong_digit_and_every_swap_of_neighbours_is_found(string code)
    {
        for (var i = 0; i < code.Length; i++)
        {
            for (var digit = '0'; digit <= '9'; digit++)
            {
                if (digit != code[i])
                {
                    Assert.False(CodeDigits.IsSnomed($"{code[..i]}{digit}{code[(i + 1)..]}"));
                }
            }

            if (i > 0 && code[i] != code[i - 1])
            {
                Assert.False(CodeDigits.IsSnomed($"{code[..(i - 1)]}{code[i]}{code[i - 1]}{code[(i + 1)..]}"));
            }
        }
    }
}
