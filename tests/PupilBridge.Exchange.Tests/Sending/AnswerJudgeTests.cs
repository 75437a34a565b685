using PupilBridge.Exchange.Sending;

namespace PupilBridge.Exchange.Tests.Sending;

/// <summary>What an answer means, by HTTP (RFC 9110) and by the FHIR R4 page on transactions (hl7.org/fhir/R4/http.html#transaction).</summary>
public class AnswerJudgeTests
{
    private const string Done =
        """{"resourceType":"Bundle","type":"transaction-response","entry":[{"response":{"status":"201 Created","location":"Patient/1"}},{"response":{"status":"200","location":"DiagnosticReport/7/_history/1"}}]}""";

    [Theory]
    [InlineData(200)]
    [InlineData(201)]
    public void An_answer_with_a_part_for_each_request_is_believed(int code) =>
        Assert.Equal(new Verdict.Stored("DiagnosticReport/7/_history/1"), Judge(code, Done));

    [Theory]
    [InlineData("")]
    [InlineData("<html>all is well</html>")]
    [InlineData("null")]
    [InlineData("[]")]
    [InlineData("{}")]
    [InlineData("""{"resourceType":"Patient"}""")]
    [InlineData("""{"resourceType":"Bundle","type":"transaction"}""")]
    [InlineData("""{"resourceType":"Bundle","type":"batch-response","entry":[{},{}]}""")]
    [InlineData("""{"resourceType":"Bundle","type":"transaction-response"}""")]
    [InlineData("""{"resourceType":"Bundle","type":"transaction-response","entry":7}""")]
    [InlineData("""{"resourceType":"Bundle","type":"transaction-response","entry":[{},{}]}""")]
    [InlineData("""{"resourceType":"Bundle","type":"transaction-response","entry":[null,4]}""")]
    [InlineData("""{"resourceType":"Bundle","type":"transaction-response","entry":[{"response":{"status":"201"}}]}""")]
    [InlineData(
        """{"resourceType":"Bundle","type":"transaction-response","entry":[{"response":{"status":"201"}},{"response":{"status":"404"}}]}"""
    )]
    [InlineData(
        """{"resourceType":"Bundle","type":"transaction-response","entry":[{"response":{"status":"201"}},{"response":{"status":"2xx"}}]}"""
    )]
    public void Success_that_shows_nothing_of_it_is_not_believed(string body) =>
        Assert.IsType<Verdict.Unbelievable>(Judge(200, body));

    [Theory]
    [InlineData(400)]
    [InlineData(403)]
    [InlineData(404)]
    [InlineData(410)]
    [InlineData(413)]
    [InlineData(422)]
    [InlineData(301)]
    [InlineData(307)]
    public void What_will_never_pass_as_it_is_is_refused(int code) =>
        Assert.Contains($"{code}", Assert.IsType<Verdict.Refused>(Judge(code, "")).Reason, StringComparison.Ordinal);

    [Theory]
    [InlineData(401, true)]
    [InlineData(408, true)]
    [InlineData(409, false)]
    [InlineData(429, true)]
    [InlineData(500, false)]
    [InlineData(501, false)]
    [InlineData(502, true)]
    [InlineData(503, true)]
    [InlineData(504, true)]
    [InlineData(507, false)]
    public void What_may_pass_later_is_tried_again(int code, bool isServer) =>
        Assert.Equal(isServer, Assert.IsType<Verdict.NotNow>(Judge(code, "")).IsServer);

    [Fact]
    public void A_secret_that_is_not_known_there_is_named_by_its_settings() =>
        Assert.Contains(
            "Sending:Header",
            Assert.IsType<Verdict.NotNow>(Judge(401, "")).Reason,
            StringComparison.Ordinal
        );

    [Fact]
    public void More_than_one_match_is_a_case_of_its_own() => Assert.IsType<Verdict.SeveralThere>(Judge(412, ""));

    [Fact]
    public void What_a_server_says_is_repeated_in_one_short_line()
    {
        var said = new string('x', 400).Insert(3, "\\n");
        var body = $$"""{"resourceType":"OperationOutcome","issue":[{"diagnostics":"{{said}}"}]}""";
        var reason = Assert.IsType<Verdict.Refused>(Judge(422, body)).Reason;
        Assert.StartsWith("it answered 422: xxx xxx", reason, StringComparison.Ordinal);
        Assert.InRange(reason.Length, 300, 340);
        Assert.DoesNotContain('\n', reason);
    }

    [Theory]
    [InlineData(0, 0.0, 0.5)]
    [InlineData(0, 1.0, 1.0)]
    [InlineData(3, 1.0, 8.0)]
    [InlineData(30, 0.0, 150.0)]
    [InlineData(1000, 1.0, 300.0)]
    public void Waits_double_up_to_a_cap_and_half_of_them_is_chance(int failures, double chance, double seconds) =>
        Assert.Equal(TimeSpan.FromSeconds(seconds), new RetryTiming().After(failures, chance));

    private static Verdict Judge(int code, string body) =>
        AnswerJudge.OfTransaction(new ServerAnswer(code, body, null), entries: 2);
}
