using CsCheck;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Clinic.Views;
using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Fhir;
using PupilBridge.Exchange.Hl7v2;
using PupilBridge.Exchange.Tests.Fhir.Support;

namespace PupilBridge.Exchange.Tests.Hl7v2;

public sealed class OruMessagesTests
{
    private static readonly Gen<string> Nasty = Gen.OneOf(
        Gen.Char["|^~\\&\r\n\t\u000b\u001c\0\u007fFSTREX.0DaÄ👁"].Array[0, 24].Select(letters => new string(letters)),
        Pick.Of(@"\F\", @"\X0D\", "O'Neil|OBX|99", @"ends with \", "a\rMSH|^~\\&|", "Größe \"3\" → ok")
    );

    [Fact]
    public void Header_patient_and_order_stand_where_the_standard_wants_them()
    {
        var outgoing = Records.Signed(Records.Constructed(2)) with
        {
            Patient = new PatientView("Q-1001", "Pilot One", new DateOnly(1980, 2, 29)),
        };
        var message = Read(outgoing);

        var head = message.Segments[0];
        Assert.Equal(@"^~\&", message.Raw(head, 2));
        Assert.Equal(["ORU", "R01", "ORU_R01"], message.Components(head, 9));
        Assert.Equal(
            ("P", "2.5.1", "UNICODE UTF-8"),
            (message.Raw(head, 11), message.Raw(head, 12), message.Raw(head, 18))
        );
        Assert.Equal("20261125093000.000+0000", message.Raw(head, 7));
        Assert.InRange(message.Raw(head, 10).Length, 1, 20);
        Assert.Equal(["MSH", "PID", "PV1", "OBR", "NTE"], message.Segments.Take(5).Select(s => s[0]));
        var patient = message.Segments[1];
        Assert.Equal(["Q-1001", "", "", "", "PI"], message.Components(patient, 3));
        Assert.Equal(("Pilot One", "19800229"), (message.Text(patient, 5), message.Text(patient, 7)));
        var order = message.Segments[3];
        Assert.Equal(["80310-6", "Pupil exam", "LN"], message.Components(order, 4).Take(3));
        Assert.Equal(("F", "DR"), (message.Raw(order, 25), message.Raw(order, 32)));
    }

    [Fact]
    public void A_corrected_result_is_of_the_same_order_and_is_another_message()
    {
        var first = Records.Constructed(2);
        var (one, two) = (Read(Records.Signed(first)), Read(Records.Amended(first)));

        Assert.Equal(one.Raw(one.Segments[3], 3), two.Raw(two.Segments[3], 3));
        Assert.Equal(("F", "C"), (one.Raw(one.Segments[3], 25), two.Raw(two.Segments[3], 25)));
        Assert.NotEqual(one.Raw(one.Segments[0], 10), two.Raw(two.Segments[0], 10));
    }

    [Fact]
    public void The_number_that_goes_on_repeats_the_field_of_the_merged_one()
    {
        var message = Read(
            Records.Signed(Records.Constructed(2)) with
            {
                Patient = new PatientView("Q-1001", null, null) { MergedInto = "Q|1009" },
            }
        );
        Assert.Equal(@"Q-1001^^^^PI~Q\F\1009^^^^PI", message.Raw(message.Segments[1], 3));
    }

    [Fact]
    public void Sizes_are_numbers_in_mm_with_eye_scale_and_status()
    {
        // Exam 2: dim 6.00/5.00.
        var message = Read(Records.Signed(Records.Constructed(2)));

        var left = message
            .All("OBX")
            .Single(s =>
                message.Text(s, 3).StartsWith("8641-3^Pupil diameter, OS (left), dim^LN", StringComparison.Ordinal)
            );

        Assert.Equal(("NM", "5.000", "F"), (message.Raw(left, 2), message.Raw(left, 5), message.Raw(left, 11)));
        Assert.Equal(["mm", "", "UCUM"], message.Components(left, 6));
        Assert.Equal("Q7/left/not-calibrated", message.Text(left, 18));
        Assert.Equal(["16089004", "Pupil of the left eye", "SCT", "pupil-left"], message.Components(left, 20).Take(4));
        var sameReading = message.All("OBX").Where(s => message.Raw(s, 4) == message.Raw(left, 4)).ToArray();
        Assert.Contains(
            sameReading,
            s => message.Components(s, 3)[0] == "expanded-uncertainty" && message.Raw(s, 5) == "0.200"
        );
    }

    [Theory]
    [InlineData(39, "direct", "X", "Could not be seen")]
    [InlineData(40, "direct", "N", "Not examined")]
    [InlineData(46, "diameter", "X", "Not possible")]
    public void What_has_no_value_says_why(int exam, string what, string status, string words)
    {
        var message = Read(Records.Signed(Records.Constructed(exam)));

        var side = exam == 46 ? "OS (left)" : "OD (right)";
        var at = message
            .Segments.ToList()
            .FindIndex(s =>
                s[0] == "OBX"
                && message.Text(s, 3).Contains(what, StringComparison.OrdinalIgnoreCase)
                && message.Text(s, 3).Contains(side, StringComparison.Ordinal)
            );

        Assert.Equal((status, ""), (message.Raw(message.Segments[at], 11), message.Raw(message.Segments[at], 5)));
        var note = message.Segments.Skip(at).First(s => s[0] == "NTE");
        Assert.Equal(words, message.Text(note, 3));
    }

    [Theory]
    [MemberData(nameof(Records.Numbers), MemberType = typeof(Records))]
    public void The_message_of_every_constructed_exam_can_be_read_and_is_numbered_through(int number)
    {
        var record = Records.Constructed(number);
        var message = Read(Records.Signed(record));
        Assert.Equal(
            Enumerable.Range(1, message.All("OBX").Count()).Select(n => $"{n}"),
            message.All("OBX").Select(s => message.Raw(s, 1))
        );
        foreach (var size in record.Sizes.Where(s => s.Counts))
        {
            var code = size.Eye == "right" ? "8643-9" : "8641-3";
            Assert.Contains(
                message.All("OBX"),
                s =>
                    message.Components(s, 3)[0] == code
                    && message.Components(s, 3)[1].EndsWith(size.Light!, StringComparison.Ordinal)
                    && decimal.Parse(message.Raw(s, 5), System.Globalization.CultureInfo.InvariantCulture) * 1000
                        == size.DiameterMicrometres
            );
        }
    }

    [Fact]
    public void Drafts_are_preliminary_and_amended_versions_corrected()
    {
        var record = Records.Constructed(1);
        Assert.Equal("P", Status(Records.Draft(record)));
        Assert.Equal("C", Status(Records.Amended(record)));
        Assert.Throws<RecordNotSentException>(() =>
            OruMessages.Of(Records.Signed(record) with { IsSetAside = true }, new FhirSettings())
        );
    }

    [Fact]
    public void Whatever_people_wrote_comes_back_as_they_wrote_it() =>
        Gen.Select(Nasty, Nasty)
            .Sample(
                (name, remark) =>
                {
                    var record = Records.Constructed(2) with
                    {
                        Notes = [new RecordNote($"R{remark}", "AB", "2026-11-25T09:00:00.000Z", 3)],
                    };
                    var outgoing = Records.Signed(record) with
                    {
                        Patient = new PatientView("Q-1001", $"N{name}", null),
                    };
                    var message = Read(outgoing);
                    Assert.Equal($"N{name}", message.Text(message.Segments[1], 5));
                    Assert.Contains(message.All("NTE"), s => message.Text(s, 3) == $"R{remark}");
                    Assert.Equal(
                        ["MSH", "OBR", "PID", "PV1"],
                        message.Segments.Select(s => s[0]).Where(n => n is not ("OBX" or "NTE")).Order()
                    );
                },
                iter: 150
            );

    [Theory]
    [InlineData("a|b", @"a\F\b")]
    [InlineData("a^b", @"a\S\b")]
    [InlineData("a&b", @"a\T\b")]
    [InlineData("a~b", @"a\R\b")]
    [InlineData(@"a\b", @"a\E\b")]
    [InlineData("a\rb\n", @"a\X0D\b\X0A\")]
    [InlineData("Größe", "Größe")]
    [InlineData(null, "")]
    // HL7 v2.5.1, 2.7.1: the five escape sequences of the delimiters (from memory).
    public void Delimiters_are_escaped(string? text, string escaped) => Assert.Equal(escaped, Hl7Text.Escape(text));

    private static string Status(OutgoingRecord outgoing)
    {
        var message = Read(outgoing);
        return message.Raw(message.All("OBR").Single(), 25);
    }

    private static Hl7Message Read(OutgoingRecord outgoing) => new(OruMessages.Of(outgoing, new FhirSettings()));
}
