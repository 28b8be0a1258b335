from django.urls import include, path, register_converter

from jobs.surveys import paper_views, section_views, views
from jobs.surveys.photographs import views as photograph_views
from jobs.surveys.sections import SECTION_BY_KEY
from jobs.surveys.versions import views as version_views


class SectionConverter:
    """Only the sections of the visit, so that other rooms may hang their own addresses on a survey."""

    regex = "|".join(SECTION_BY_KEY)

    def to_python(self, value: str) -> str:
        return value

    def to_url(self, value: str) -> str:
        return value


register_converter(SectionConverter, "section")

urlpatterns = [
    path("", include("jobs.surveys.offline.urls")),
    path("surveys/", views.surveys, name="surveys"),
    path("surveys/new/", views.survey_new, name="survey_new"),
    path("surveys/blank-sheet.pdf", paper_views.blank_sheet, name="blank_sheet"),
    path("surveys/<str:number>/blank-sheet.pdf", paper_views.survey_sheet, name="survey_sheet"),
    path("surveys/<str:number>/", views.survey, name="survey"),
    path("surveys/<str:number>/against/<str:other>/", version_views.survey_against, name="survey_against"),
    path("surveys/<str:number>/day/", views.survey_day, name="survey_day"),
    path("surveys/<str:number>/complete/", views.survey_complete, name="survey_complete"),
    path("surveys/<str:number>/reopen/", views.survey_reopen, name="survey_reopen"),
    path("surveys/<str:number>/copy/", views.survey_copy, name="survey_copy"),
    path("surveys/<str:number>/landed/", views.survey_landed, name="survey_landed"),
    path("surveys/<str:number>/findings/<int:pk>/clear/", views.finding_clear, name="finding_clear"),
    path("surveys/<str:number>/<section:section>/", section_views.survey_section, name="survey_section"),
    path(
        "surveys/<str:number>/<section:section>/figures/",
        section_views.section_figures,
        name="section_figures",
    ),
    path("photographs/<int:pk>/", photograph_views.photograph, name="photograph"),
]
